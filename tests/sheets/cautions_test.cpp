#include "sheets/cautions.h"

#include "sheets/changed_results.h"
#include "sheets/key_plan.h"
#include "sheets/label_text.h"
#include "sheets/long_section.h"
#include "sheets/section_set.h"

#include <gtest/gtest.h>

#include <algorithm>

namespace selvage::sheets {
namespace {

TEST(Cautions, CountTheErrorsAndWarningsOfTheInput) {
    EXPECT_EQ(input_caution(0, 0), "");
    EXPECT_EQ(input_caution(13, 24), "Input: 13 errors (rows left out, cut or read as empty), 24 warnings: see the checks.");
    EXPECT_EQ(input_caution(1, 0), "Input: 1 error (rows left out, cut or read as empty): see the checks.");
    EXPECT_EQ(input_caution(0, 1), "Input: 1 warning: see the checks.");
}

std::vector<paths::Path*> of_status(ChangedResults& changed, tables::HoleStatus status) {
    std::vector<paths::Path*> paths;
    for (paths::Path& path : changed.paths)
        if (path.status == status) paths.push_back(&path);
    return paths;
}

TEST(Cautions, AnActiveHoleIsNotSaidToBePlannedOnly) {
    ChangedResults changed;
    const std::vector<paths::Path*> active = of_status(changed, tables::HoleStatus::active);
    const std::vector<paths::Path*> planned = of_status(changed, tables::HoleStatus::planned);
    const std::vector<paths::Path*> done = of_status(changed, tables::HoleStatus::done);
    ASSERT_FALSE(active.empty());
    ASSERT_FALSE(planned.empty());
    active[0]->drilled_depth = 210.2;
    changed.project.plan.clearance = 0.0;  // else planned holes that draw near to others are warned of first
    const Results results = changed.results();
    const std::string words = holes_ahead_caution({active[0]->hole, done[0]->hole}, results);
    EXPECT_EQ(words.rfind(active[0]->hole + ": drilled to 210 m, what lies ahead of its last survey is a forecast; permits", 0),
              0u)
        << words;
    EXPECT_FALSE(holds(words, "planned"));
    EXPECT_FALSE(holds(words, done[0]->hole));
    const std::string both = holes_ahead_caution({planned[0]->hole, active[0]->hole}, results);
    EXPECT_TRUE(holds(both, "forecast. " + planned_hole_caution({planned[0]->hole}))) << both;
    EXPECT_EQ(holes_ahead_caution({planned[0]->hole}, results), planned_hole_caution({planned[0]->hole}));
    EXPECT_EQ(holes_ahead_caution({done[0]->hole}, results), "");
}

// Whoever decides from a drawing reads it there, not on the card alone.
TEST(Cautions, SayOnEverySheetWhatAHoleComesTooNearTo) {
    ChangedResults changed;
    const std::vector<paths::Path*> planned = of_status(changed, tables::HoleStatus::planned);
    changed.project.plan.clearance = 0.0;
    EXPECT_FALSE(holds(holes_ahead_caution({planned[0]->hole}, changed.results()), "TOO NEAR"));
    changed.project.plan.clearance = 1e5;
    const std::string caution = holes_ahead_caution({planned[0]->hole}, changed.results());
    EXPECT_EQ(caution.rfind(planned[0]->hole + " (", 0), 0u) << caution;
    EXPECT_TRUE(holds(
        caution, " more) COMES TOO NEAR other holes: not to be drilled as planned. " + planned_hole_caution({planned[0]->hole})))
        << caution;
}

// All of it, whatever holes come too near to others, stands within the foot of the sheet.
TEST(Cautions, ATooLongOneIsShortenedNotCut) {
    ChangedResults changed;
    changed.project.plan.clearance = 1e5;
    const MadeUpPack& pack = made_up_pack();
    const Results results = changed.results();
    const GradeClasses classes = grade_classes(results);
    std::size_t told = 0;
    for (const drawing::Sheet& sheet :
         long_section(results, 0, pack.run, classes, section_set(results), key_map(results), pack.tools())) {
        const Box foot = page_boxes(sheet.width_mm, sheet.height_mm, pack.style.page.layout).foot;
        for (const drawing::Item& item : sheet.items) {
            const auto* text = std::get_if<drawing::Text>(&item.mark);
            if (text == nullptr || text->look.size_pt != pack.style.text("caution").size_pt || text->at.y > foot.top + 2.0 ||
                text->at.x > foot.right)
                continue;
            const Box box = box_of_words(*text, pack.fonts.metrics);
            EXPECT_GT(box.bottom, foot.bottom) << text->text;
            EXPECT_LT(box.top, foot.top) << text->text;
            told += text->text.find("TOO NEAR") != std::string::npos ? 1 : 0;
        }
    }
    EXPECT_GT(told, 0u);
}

TEST(Cautions, ActiveHolesAreNamedWithTheirDepthsWhereTheyAreFew) {
    ChangedResults changed;
    std::vector<std::string> holes;
    for (paths::Path& path : changed.paths) {
        if (holes.size() == 6) break;
        path.status = tables::HoleStatus::active;
        path.drilled_depth = 100.0 + static_cast<double>(holes.size());
        holes.push_back(path.hole);
    }
    const std::string two = holes_ahead_caution({holes[0], holes[1]}, changed.results());
    EXPECT_EQ(two.rfind(holes[0] + ", " + holes[1] + ": drilled to 100 m and 101 m, what lies ahead of their last survey", 0), 0u)
        << two;
    const std::string six = holes_ahead_caution(holes, changed.results());
    EXPECT_EQ(six.rfind("Active holes: what lies ahead of their last survey is a forecast; permits", 0), 0u) << six;
}

// One rule: whatever sheet names an active hole in its caution says how far it is drilled.
TEST(Cautions, NoSheetSaysOfAnActiveHoleThatItIsPlanned) {
    ChangedResults changed;
    std::size_t told = 0;
    for (const paths::Path* path : of_status(changed, tables::HoleStatus::active))
        for (const drawing::Sheet& sheet : made_up_pack().sheets) {
            const std::string words = all_words({sheet});
            EXPECT_FALSE(holds(words, path->hole + ": planned position only")) << sheet.kind << ' ' << sheet.name;
            EXPECT_FALSE(holds(words, path->hole + ", ") && holds(words, ", " + path->hole + ": planned position only"))
                << sheet.kind << ' ' << sheet.name;
            told += holds(words, "is a forecast") ? 1 : 0;
        }
    EXPECT_GT(told, 4u);
}

}  // namespace
}  // namespace selvage::sheets
