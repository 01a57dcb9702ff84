#include "sheets/changed_results.h"
#include "sheets/cross_section.h"
#include "sheets/key_plan.h"
#include "sheets/level_plan.h"
#include "sheets/level_set.h"
#include "sheets/long_section.h"
#include "sheets/opening_signs.h"
#include "sheets/overview.h"
#include "sheets/plan.h"
#include "sheets/section_content.h"
#include "sheets/starts.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <string>

namespace selvage::sheets {
namespace {

// The made-up pack where one hole ran into a void at its first intercept.
struct WithVoid : ChangedResults {
    std::string hole, vein, words;
    WithVoid() {
        const intercepts::Intercept& hit = intercepts.met.front();
        hole = hit.hole;
        vein = hit.vein;
        tables::DrillingEvent dropped;
        dropped.hole = hole;
        dropped.kind = "void";
        dropped.depth = hit.from;
        dropped.to = hit.to + 0.5;
        records.drilling.push_back(dropped);
        words = "VOID " + length_figure_of(dropped.depth) + " to " + length_figure_of(*dropped.to) + " m, " + hole;
    }
    static std::string length_figure_of(double metres) {
        std::string figure = std::to_string(std::round(metres * 10.0) / 10.0);
        return figure.substr(0, figure.find('.') + 2);
    }
};

const drawing::Text* text_set(const std::vector<drawing::Sheet>& sheets, const std::string& words) {
    for (const drawing::Sheet& sheet : sheets)
        for (const drawing::Item& item : sheet.items)
            if (const auto* text = std::get_if<drawing::Text>(&item.mark); text != nullptr && text->text == words) return text;
    return nullptr;
}

void expect_told(const std::vector<drawing::Sheet>& sheets, const WithVoid& made, const std::string& what) {
    const drawing::Text* text = text_set(sheets, made.words);
    ASSERT_NE(text, nullptr) << what << ": " << made.words;
    EXPECT_EQ(text->look.face, drawing::FontFace::bold) << what;
    const std::string all = all_words(sheets);
    EXPECT_TRUE(holds(all, "Known openings:")) << what;
    EXPECT_TRUE(holds(all, "void in " + made.hole)) << what;
    EXPECT_TRUE(holds(all, "known opening:")) << what << ": the legend";
}

TEST(OpeningsOnSheets, EveryDrawingThatHoldsAVoidSaysItInStrongTypeAtItsPlace) {
    const WithVoid made;
    const Results results = made.results();
    const MadeUpPack& pack = made_up_pack();
    const GradeClasses classes = grade_classes(results);
    const SectionSet sections = section_set(results);
    const std::vector<OpeningInSpace> openings = openings_in_space(results);
    const auto own =
        std::find_if(openings.begin(), openings.end(), [&](const OpeningInSpace& one) { return one.opened.hole == made.hole; });
    ASSERT_NE(own, openings.end());
    expect_told(plan(results, pack.run, classes, sections, pack.tools()), made, "plan");
    expect_told(overview(results, pack.run, classes, pack.tools()), made, "overview");
    expect_told(
        long_section(results, vein_number(results, made.vein), pack.run, classes, sections, key_map(results), pack.tools()), made,
        "long section");
    SectionSet one = sections;
    one.sections.erase(
        std::remove_if(one.sections.begin(), one.sections.end(),
                       [&](const Section& section) { return section.number != slab_number(sections, own->point); }),
        one.sections.end());
    expect_told(cross_sections(results, one, classes, key_map(results), pack.run, pack.tools()), made, "cross section");
    expect_told(level_plans(drawn_at(level_set(results), {own->point}), results, pack.run, classes, pack.tools()), made,
                "level plan");
    EXPECT_EQ(text_set(plan(pack.results(), pack.run, classes, sections, pack.tools()), made.words), nullptr);
}

TEST(Starts, AChannelHasASignOfItsOwnOnThePlan) {
    const MadeUpPack& pack = made_up_pack();
    ChangedResults changed;
    const auto words = [&] {
        const Results results = changed.results();
        return all_words(plan(results, pack.run, grade_classes(results), section_set(results), pack.tools()));
    };
    EXPECT_FALSE(holds(words(), "start of a"));
    changed.collar(changed.records.collars.front().hole).type = tables::HoleType::channel;
    EXPECT_TRUE(holds(words(), "start of a channel")) << words();
}

TEST(Starts, NameTheKindsThatOccur) {
    EXPECT_EQ(sample_start_words({tables::HoleType::face, tables::HoleType::channel}), "start of a channel or face");
    EXPECT_EQ(sample_start_words({tables::HoleType::face, tables::HoleType::channel, tables::HoleType::trench}),
              "start of a channel, trench or face");
}

}  // namespace
}  // namespace selvage::sheets
