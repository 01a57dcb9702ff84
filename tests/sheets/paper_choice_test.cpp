#include "sheets/paper_choice.h"

#include "sheets/changed_results.h"

#include <gtest/gtest.h>

#include <array>
#include <map>
#include <string>
#include <vector>

namespace selvage::sheets {
namespace {

SheetTrial trial(std::size_t beside, std::size_t on_leaders, std::size_t listed, double leader_mean_mm = 8.0) {
    SheetTrial made;
    made.sheet.labels = {beside + on_leaders + listed, beside, on_leaders, listed, 0, 0, leader_mean_mm, leader_mean_mm};
    made.listed = listed;
    return made;
}

// The paper taken where each gives that trial.
std::string taken(const std::map<std::string, SheetTrial>& on, const std::string& paper = "A3",
                  const std::string& largest = "A1") {
    ChangedResults changed;
    changed.project.sheets.paper = paper;
    changed.project.sheets.largest_paper = largest;
    return on_paper_that_bears(changed.results(), made_up_pack().style,
                               [&](const Results& results) {
                                   SheetTrial made = on.at(results.project.sheets.paper);
                                   made.sheet.name = results.project.sheets.paper;
                                   return made;
                               })
        .name;
}

TEST(PaperChoice, StaysOnThePacksPaperWhereLabelsHaveRoom) {
    EXPECT_EQ(taken({{"A3", trial(80, 20, 0)}}), "A3");
    EXPECT_EQ(taken({{"A3", trial(2, 4, 0)}}), "A3");  // a few are no crowd
}

TEST(PaperChoice, TakesTheSmallestPaperOnWhichLabelsStandBesideTheirPoints) {
    EXPECT_EQ(taken({{"A3", trial(70, 30, 0)}, {"A2", trial(85, 15, 0)}}), "A2");
    EXPECT_EQ(taken({{"A3", trial(70, 30, 0)}, {"A2", trial(70, 30, 0)}, {"A1", trial(90, 10, 0)}}), "A1");
    EXPECT_EQ(taken({{"A3", trial(85, 15, 0, 20.0)}, {"A2", trial(85, 15, 0)}}), "A2");  // its leaders were long
    EXPECT_EQ(taken({{"A3", trial(90, 0, 9)}, {"A2", trial(95, 4, 0)}}), "A2");          // its side list too
}

TEST(PaperChoice, LargerPaperThatGivesNothingIsNotTaken) {
    EXPECT_EQ(taken({{"A3", trial(70, 30, 0)}, {"A2", trial(71, 29, 0)}, {"A1", trial(72, 28, 0)}}), "A3");
    EXPECT_EQ(taken({{"A3", trial(50, 50, 0)}, {"A2", trial(70, 30, 0)}, {"A1", trial(71, 29, 0)}}), "A2");
}

TEST(PaperChoice, GrowsNoFurtherThanTheProjectAllows) {
    EXPECT_EQ(taken({{"A3", trial(10, 30, 60)}}, "A3", "A3"), "A3");
    EXPECT_EQ(taken({{"A3", trial(10, 30, 60)}, {"A2", trial(20, 30, 50)}}, "A3", "A2"), "A2");
    EXPECT_EQ(taken({{"A1", trial(10, 30, 60)}, {"A0", trial(90, 10, 0)}}, "A1", "A0"), "A0");
    EXPECT_EQ(taken({{"279x432", trial(10, 30, 60)}, {"559x864", trial(90, 10, 0)}}, "279x432"), "559x864");
    EXPECT_EQ(taken({{"279x432", trial(10, 30, 60)}}, "279x432", "A2"), "279x432");
}

TEST(PaperChoice, TablesStandOnA3AndLogsOnNoLargerPaper) {
    const drawing::Style& style = made_up_pack().style;
    settings::Project project;
    for (const auto& [paper, desk, table] : std::vector<std::array<const char*, 3>>{
             {"A4", "A4", "A3"}, {"A3", "A3", "A3"}, {"A1", "A3", "A3"}, {"559x864", "279x432", "279x432"}}) {
        project.sheets.paper = paper;
        EXPECT_EQ(on_desk_paper(project, style).sheets.paper, desk);
        EXPECT_EQ(on_table_paper(project, style).sheets.paper, table);
    }
}

}  // namespace
}  // namespace selvage::sheets
