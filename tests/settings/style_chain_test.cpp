#include "settings/read.h"

#include "base/file.h"
#include "drawing/style_roles.h"
#include "support/temporary_folder.h"

#include <gmock/gmock.h>
#include "support/colour_measures.h"

#include <gtest/gtest.h>

#include <cmath>
#include <filesystem>
#include <string>
#include <utility>
#include <vector>

// Styles that start from other styles, and the styles that come with the program.
namespace selvage::settings {
namespace {

using drawing::Colour;
using testing::HasSubstr;

// Writes files into a folder of its own and reads the last one as a style.
base::Checked<drawing::Style> style_of(const std::vector<std::pair<std::string, std::string>>& files) {
    const TemporaryFolder folder("styles");
    for (const auto& [name, text] : files) base::write_file(folder.path() / name, text);
    return read_style((folder.path() / files.back().first).string());
}

TEST(StyleChain, OnlyWhatDiffersStandsInTheFile) {
    const drawing::Style base = read_style("default").value;
    const auto style = style_of({{"mine.toml",
                                  "name = \"mine\"\nfrom = \"default\"\n[texts]\ntitle = { size = 16 }\n"
                                  "[lines]\ntrace = { width = 0.5 }\n[rocks]\ntuff = { tint = [1, 2, 3] }\n"}});
    for (const auto& finding : style.findings) ADD_FAILURE() << base::line_of(finding);
    EXPECT_EQ(style.value.name, "mine");
    EXPECT_DOUBLE_EQ(style.value.text("title").size_pt, 16.0);
    EXPECT_EQ(style.value.text("title").face, drawing::FontFace::bold);
    EXPECT_DOUBLE_EQ(style.value.line("trace").width_mm, 0.5);
    EXPECT_TRUE(style.value.line("trace").colour == base.line("trace").colour);
    EXPECT_TRUE((style.value.rocks.at("tuff").colour == Colour{1, 2, 3}));
    EXPECT_EQ(style.value.rocks.at("tuff").pattern.mark, drawing::PatternMark::dots);
    EXPECT_EQ(style.value.texts.size(), base.texts.size());
    EXPECT_EQ(style.value.veins.size(), base.veins.size());
}

TEST(StyleChain, ARoleThatNamesAColourTakesTheLastOneOfThatName) {
    const auto style = style_of({{"first.toml", "from = \"default\"\n[colours]\nplanned = [1, 1, 1]\n"},
                                 {"second.toml", "from = \"first.toml\"\n[colours]\nplanned = [2, 2, 2]\n"}});
    EXPECT_TRUE(style.findings.empty());
    EXPECT_TRUE((style.value.text("planned_name").colour == Colour{2, 2, 2}));
    EXPECT_TRUE((style.value.line("trace_planned").colour == Colour{2, 2, 2}));
}

TEST(StyleChain, AListTakesTheOtherOnesPlace) {
    const auto style = style_of({{"mine.toml", "from = \"default\"\n[[vein]]\ncolour = [1, 2, 3]\npale = [4, 5, 6]\n"}});
    EXPECT_TRUE(style.findings.empty());
    ASSERT_EQ(style.value.veins.size(), 1u);
    EXPECT_TRUE((style.value.veins_pale[0] == Colour{4, 5, 6}));
}

TEST(StyleChain, AStyleThatComesBackToItselfIsNamedWithItsLine) {
    const auto style =
        style_of({{"b.toml", "name = \"b\"\nfrom = \"a.toml\"\n"}, {"a.toml", "name = \"a\"\n\nfrom = \"b.toml\"\n"}});
    ASSERT_EQ(style.findings.size(), 1u);
    EXPECT_THAT(style.findings[0].message, HasSubstr("leads back to"));
    EXPECT_THAT(style.findings[0].origin.source, HasSubstr("b.toml"));
    EXPECT_EQ(style.findings[0].origin.row, 2u);
    EXPECT_FALSE(style_of({{"self.toml", "from = \"self.toml\"\n"}}).findings.empty());
}

TEST(StyleChain, AMissingBaseIsNamedWithTheFileAndLineThatAsksForIt) {
    const auto style = style_of({{"mine.toml", "name = \"mine\"\nfrom = \"defalt\"\n"}});
    ASSERT_EQ(style.findings.size(), 1u);
    EXPECT_THAT(style.findings[0].message, HasSubstr("did you mean \"default\"?"));
    EXPECT_THAT(style.findings[0].origin.source, HasSubstr("mine.toml"));
    EXPECT_EQ(style.findings[0].origin.row, 2u);
}

TEST(StyleChain, WhatIsWrongIsFoundWithItsLineAndTheNearestKey) {
    for (const auto& [wrong, said] :
         std::vector<std::pair<std::string, std::string>>{{"[page]\nlayuot = \"slide\"", "did you mean \"layout\"?"},
                                                          {"[page]\nlayout = \"slid\"", "did you mean \"slide\"?"},
                                                          {"[page]\npaper = [480]", "two lengths"},
                                                          {"[page]\nenlarged = 0", "not a number from 0.25 to 8"},
                                                          {"[content]\nforecast = true", "did you mean \"forecasts\"?"},
                                                          {"[content]\nforecasts = 1", "true or false"},
                                                          {"[content]\nsheets = [\"plam\"]", "did you mean \"plan\"?"},
                                                          {"[texts]\ntittle = { size = 9 }", "did you mean \"title\"?"},
                                                          {"[texts]\ntitle = { sise = 9 }", "did you mean \"size\"?"}}) {
        const auto style = style_of({{"mine.toml", "from = \"default\"\n" + wrong + "\n"}});
        ASSERT_EQ(style.findings.size(), 1u) << wrong;
        EXPECT_THAT(style.findings[0].message, HasSubstr(said));
        EXPECT_THAT(style.findings[0].origin.source, HasSubstr("mine.toml"));
        EXPECT_EQ(style.findings[0].origin.row, 3u) << wrong;
    }
}

TEST(Styles, ThoseThatComeWithTheProgramCanBeRead) {
    for (const char* name : {"default", "grey", "screen", "report"}) {
        const auto style = read_style(name);
        for (const auto& finding : style.findings) ADD_FAILURE() << base::line_of(finding);
        EXPECT_EQ(style.value.name, name);
    }
}

TEST(Styles, GreyHasNoColourAndItsStepsAreTold) {
    const drawing::Style style = read_style("grey").value;
    const auto expect_grey = [](const Colour& c, const std::string& what) {
        EXPECT_TRUE(c.red == c.green && c.green == c.blue) << what;
    };
    for (const auto& [role, colour] : style.colours) expect_grey(colour, role);
    for (const auto& [role, look] : style.texts) expect_grey(look.colour, role);
    for (const auto& [role, look] : style.lines) expect_grey(look.colour, role);
    for (const auto& [rock, look] : style.rocks) expect_grey(look.colour, rock);
    for (const auto& look : style.other_rocks) expect_grey(look.colour, "other rock");
    for (const std::vector<Colour>& all : {style.classes, style.classes_pale, style.veins, style.veins_pale})
        for (const Colour& colour : all) expect_grey(colour, "class or vein");
    constexpr double least_step = 12.0;  // in CIE L*: the project's own rule for grey prints
    for (std::size_t i = 1; i < style.classes.size(); ++i)
        EXPECT_GE(test::lightness(style.classes[i - 1]) - test::lightness(style.classes[i]), least_step) << i;
    for (std::size_t i = 0; i < style.veins.size(); ++i)
        for (std::size_t k = 0; k < i; ++k)
            EXPECT_GE(std::abs(test::lightness(style.veins[i]) - test::lightness(style.veins[k])), least_step) << i << " " << k;
}

TEST(Styles, ScreenHasNoTypeUnderTwelvePointsOnAPageOf16To9) {
    const drawing::Style style = read_style("screen").value;
    for (const auto& [role, look] : style.texts) EXPECT_GE(look.size_pt * style.page.enlarged, 12.0 - 1e-4) << role;
    EXPECT_NEAR(style.page.width_mm / style.page.height_mm, 16.0 / 9.0, 1e-3);
    EXPECT_TRUE(style.draws("long-section"));
    EXPECT_FALSE(style.draws("drill-site-card"));
}

TEST(Styles, ReportShowsNothingThatIsNotMeasured) {
    const drawing::Style style = read_style("report").value;
    EXPECT_FALSE(style.content.forecasts || style.content.step_outs || style.content.modelled_grades ||
                 style.content.model_doubt);
    for (const char* kind : {"step-outs", "drill-site-card", "hole-section"}) EXPECT_FALSE(style.draws(kind)) << kind;
}

}  // namespace
}  // namespace selvage::settings
