#include "sheets/front_page.h"

#include "sheets/changed_results.h"
#include "sheets/front_words.h"

#include <gtest/gtest.h>

#include <algorithm>

namespace selvage::sheets {
namespace {

std::string words_on(const Results& results, const RunFacts& run) {
    return all_words({front_page(results, run, grade_classes(results), section_set(results), made_up_pack().tools()).sheet});
}

TEST(FrontPage, SaysOpenlyWhatIsNotKnownWithoutDates) {
    const MadeUpPack& pack = made_up_pack();  // its run has no date
    const std::string words = words_on(pack.results(), pack.run);
    EXPECT_TRUE(holds(words, "So far: "));
    EXPECT_TRUE(holds(words, "what is new cannot be told"));
}

TEST(FrontPage, ReadsWellWhereNothingCame) {
    const MadeUpPack& pack = made_up_pack();
    RunFacts run = pack.run;
    run.date = "2030-01-01";
    const std::string words = words_on(pack.results(), run);
    EXPECT_TRUE(holds(words, "Week to 2030-01-01"));
    EXPECT_TRUE(holds(words, "no new result"));
    EXPECT_TRUE(holds(words, "Nothing new came in. The latest results before"));
}

TEST(FrontPage, PutsANewResultBesideWhatWasSaidAndSaysWhetherTheRangeHeld) {
    ChangedResults changed;
    const intercepts::Intercept& hit = changed.intercepts.met.front();
    changed.collar(hit.hole).date_finished = "2026-12-30";
    const history::EarlierRuns earlier{
        "2026-12-24",
        {{"2026-12-24", "then", hit.hole, hit.vein, "", hit.middle() - 8.0, hit.middle() - 3.0, hit.middle() + 2.0, 0.8}}};
    RunFacts run = made_up_pack().run;
    run.date = "2026-12-31";
    run.earlier = &earlier;
    const std::string words = words_on(changed.results(), run);
    EXPECT_TRUE(holds(words, "Since 2026-12-24"));
    EXPECT_TRUE(holds(words, "chance 0.80, pack of 2026-12-24"));
    EXPECT_TRUE(holds(words, "+3.0 held "));
    EXPECT_FALSE(holds(words, "nearest hit"));  // a forecast on record is a test
    run.earlier = nullptr;
    EXPECT_TRUE(holds(words_on(changed.results(), run), ", nearest hit "));
}

TEST(FrontPage, TicksWhatIsToBeDecided) {
    ChangedResults changed;
    RunFacts run = made_up_pack().run;
    run.errors = 2;
    const GradeClasses classes = grade_classes(changed.results());
    for (paths::Path& path : changed.paths)
        for (const forecast::Pierce& pierce : changed.pierces)
            if (pierce.hole == path.hole && path.status == tables::HoleStatus::active)
                path.drilled_depth = pierce.call_depth + 1.0;
    const std::vector<Paragraph> open = decisions(changed.results(), classes, run);
    const auto asked = [&](const std::string& strong) {
        return std::any_of(open.begin(), open.end(), [&](const Paragraph& one) { return one.tick && one.strong == strong; });
    };
    EXPECT_TRUE(asked("At the rig"));
    EXPECT_TRUE(asked("Mend"));
    EXPECT_TRUE(asked("Step-out 1"));
    changed.pierces.clear();
    changed.step_outs.clear();
    changed.project.plan.clearance = 0.0;  // else planned holes beside drilled ones are to be moved
    run.errors = 0;
    EXPECT_TRUE(decisions(changed.results(), classes, run).empty());
    EXPECT_TRUE(holds(words_on(changed.results(), run), "nothing in the tables asks for one"));
}

TEST(FrontPage, CountsOneAsOne) {
    ChangedResults changed;
    bool kept = false;
    for (tables::Collar& collar : changed.records.collars)
        if (collar.status == tables::HoleStatus::active) {
            if (kept) collar.status = tables::HoleStatus::done;
            kept = true;
        }
    ASSERT_TRUE(kept);
    RunFacts run = made_up_pack().run;
    run.errors = 1;
    News news;
    news.misses = 1;
    std::string captions;
    for (const KeyFigure& figure : key_figures(news, changed.results(), run))
        captions += figure.figure + " " + figure.caption + "; ";
    for (const char* part : {"1 hole drilling, ", "1 miss: no vein", "1 error, "}) EXPECT_TRUE(holds(captions, part)) << captions;
    EXPECT_TRUE(holds(captions, "0 hits so far"));
}

// All three step-outs of the example find room beside its other decisions.
TEST(FrontPage, HidesNoStepOutThatFindsRoom) {
    const MadeUpPack& pack = made_up_pack();
    ASSERT_GE(pack.results().step_outs.size(), 3u);
    const std::string words = words_on(pack.results(), pack.run);
    EXPECT_TRUE(holds(words, "Step-out 3"));
}

TEST(FrontPage, NamesEveryKindOfSheetWithItsNumbers) {
    const MadeUpPack& pack = made_up_pack();
    const std::string words = all_words({pack.sheets.front()});
    std::size_t first = 0;
    while (pack.sheets[first].kind != "plan") ++first;
    EXPECT_TRUE(holds(words, std::to_string(first + 1) + " plan "));
    EXPECT_TRUE(holds(words, "methods and cautions"));
    EXPECT_TRUE(holds(words, "checks and fit"));
}

TEST(FrontPage, StandsWithoutAnyVein) {
    ChangedResults changed;
    changed.forget_veins();
    const FrontPage front = front_page(changed.results(), made_up_pack().run, grade_classes(changed.results()),
                                       section_set(changed.results()), made_up_pack().tools());
    const std::string words = all_words({front.sheet});
    EXPECT_TRUE(holds(words, "No hole has met a vein"));
    EXPECT_TRUE(holds(words, "No planned or active hole should meet a vein"));
}

TEST(FrontPage, PictureIsToScaleAndHoldsEverySign) {
    const MadeUpPack& pack = made_up_pack();
    const drawing::Sheet& sheet = pack.sheets.front();
    ASSERT_FALSE(sheet.windows.empty());
    const std::vector<double>& ladder = scale_ladder(false);
    for (const drawing::Window& window : sheet.windows)
        EXPECT_NE(std::find(ladder.begin(), ladder.end(), window.metres_per_mm * 1000.0), ladder.end());
}

}  // namespace
}  // namespace selvage::sheets
