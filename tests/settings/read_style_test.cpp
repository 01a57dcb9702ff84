#include "settings/read.h"

#include "base/file.h"
#include "drawing/style_roles.h"

#include <gmock/gmock.h>
#include "support/colour_measures.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <filesystem>

namespace selvage::settings {
namespace {

namespace fs = std::filesystem;
using drawing::Colour;
using testing::HasSubstr;

std::string default_text() { return base::read_file(fs::path(SELVAGE_STYLES_FOLDER) / "default.toml"); }

// Reads the default style with one piece of its text replaced.
base::Checked<drawing::Style> with(const std::string& old_text, const std::string& new_text) {
    std::string text = default_text();
    const std::size_t at = text.find(old_text);
    EXPECT_NE(at, std::string::npos) << old_text;
    text.replace(at, old_text.size(), new_text);
    const fs::path file = fs::temp_directory_path() / (std::string("selvage_style_") +
                                                       testing::UnitTest::GetInstance()->current_test_info()->name() + ".toml");
    base::write_file(file, text);
    auto style = read_style(file.string());
    fs::remove(file);
    return style;
}

std::size_t line_with(const std::string& piece) {
    const std::string text = default_text();
    const std::size_t at = text.find(piece);
    return 1 + static_cast<std::size_t>(std::count(text.begin(), text.begin() + static_cast<std::ptrdiff_t>(at), '\n'));
}

const Colour white{255, 255, 255};

TEST(ReadStyle, TheDefaultStyleHasEveryRole) {
    const auto style = read_style("default");
    for (const auto& finding : style.findings) ADD_FAILURE() << base::line_of(finding);
    for (const std::string& role : drawing::role_names(drawing::RoleKind::text))
        EXPECT_EQ(style.value.texts.count(role), 1u) << role;
    for (const std::string& role : drawing::role_names(drawing::RoleKind::line))
        EXPECT_EQ(style.value.lines.count(role), 1u) << role;
    EXPECT_EQ(style.value.classes.size(), 5u);
    EXPECT_EQ(style.value.font_family, "Open Sans");
    EXPECT_DOUBLE_EQ(style.value.text("title").size_pt, 14.0);
    EXPECT_EQ(style.value.line("trace_planned").dash_mm, (std::vector<double>{0.0, 1.15}));
    EXPECT_EQ(style.value.rocks.at("siltstone").pattern.mark, drawing::PatternMark::dashes);
}

TEST(ReadStyle, TheDefaultStyleCanBeReadOnPaper) {
    const drawing::Style style = read_style("default").value;
    for (const auto& [role, look] : style.texts) {
        EXPECT_GE(test::contrast(look.colour, white), 4.5) << role;
        EXPECT_GE(look.size_pt, 6.0) << role;
    }
    for (const Colour& vein : style.veins) EXPECT_GE(test::contrast(vein, white), 4.5);
    // Words on the tints of rocks, areas and veins keep a contrast of 7 or more.
    const Colour ink = style.colour("ink");
    for (const auto& [rock, look] : style.rocks) EXPECT_GE(test::contrast(ink, look.colour), 7.0) << rock;
    for (const Colour& pale : style.classes_pale) EXPECT_GE(test::contrast(ink, pale), 7.0);
    for (const Colour& pale : style.veins_pale) EXPECT_GE(test::contrast(ink, pale), 7.0);
    for (const auto& [role, look] : style.lines) EXPECT_GE(look.width_mm, 0.125) << role;
}

TEST(ReadStyle, ClassesKeepTheirOrderInGrey) {
    const drawing::Style style = read_style("default").value;
    for (std::size_t i = 1; i < style.classes.size(); ++i)
        EXPECT_GE(test::lightness(style.classes[i - 1]) - test::lightness(style.classes[i]), 12.0) << i;
}

TEST(ReadStyle, AnUnknownRoleNamesItsLineAndTheNearestOne) {
    const auto style = with("\nwall_accurate =", "\nwall_acurate =");
    ASSERT_EQ(style.findings.size(), 2u);
    EXPECT_EQ(style.findings[0].origin.row, line_with("wall_accurate ="));
    EXPECT_THAT(style.findings[0].message, HasSubstr("did you mean \"wall_accurate\"?"));
    EXPECT_THAT(style.findings[1].message, HasSubstr("[lines] lacks \"wall_accurate\""));
}

TEST(ReadStyle, WrongValuesAreFoundWithTheirLine) {
    const std::string title = "title = { size = 14, face = \"bold\", colour = \"ink\" }";
    for (const auto& [wrong, said] : std::vector<std::pair<std::string, std::string>>{
             {"title = { size = 0, face = \"bold\", colour = \"ink\" }", "not a number from"},
             {"title = { size = nan, face = \"bold\", colour = \"ink\" }", "not a number from"},
             {"title = { size = 14, face = \"bald\", colour = \"ink\" }", "did you mean \"bold\"?"},
             {"title = { size = 14, face = \"bold\", colour = \"inc\" }", "no colour is called \"inc\""},
             {"title = { size = 14, face = \"bold\", colour = [1, 2, 256] }", "three whole numbers"},
             {"title = { size = 14, face = \"bold\" }", "\"colour\" is missing here"},
             {"title = 14", "a text is a table"}}) {
        const auto style = with(title, wrong);
        ASSERT_EQ(style.findings.size(), 1u) << wrong;
        EXPECT_THAT(style.findings[0].message, HasSubstr(said));
        EXPECT_EQ(style.findings[0].origin.row, line_with(title));
    }
}

TEST(ReadStyle, ADashThatIsNoneIsRefused) {
    for (const char* dash : {"[1.5]", "[0, 0]", "[-1, 2]", "\"dotted\""}) {
        const auto style = with("dash = [1.5, 0.75]", "dash = " + std::string(dash));
        EXPECT_FALSE(style.findings.empty()) << dash;
    }
}

TEST(ReadStyle, AFileThatIsNotTomlNamesTheLine) {
    const auto style = with("[sizes]", "[sizes");
    ASSERT_EQ(style.findings.size(), 1u);
    EXPECT_EQ(style.findings[0].origin.row, line_with("[sizes]"));
}

TEST(ReadStyle, AnUnknownStyleSaysWhichAreKnown) {
    const auto style = read_style("defalt");
    ASSERT_EQ(style.findings.size(), 1u);
    EXPECT_THAT(style.findings[0].message, HasSubstr("did you mean \"default\"?"));
}

}  // namespace
}  // namespace selvage::settings
