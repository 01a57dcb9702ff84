#include "sheets/paper_choice.h"

#include "sheets/changed_results.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
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
    const auto whole = [](const Results&) { return Tiling{1000.0, {Tile{}}}; };
    const auto drawn = [&](const Results& results) {
        SheetTrial made = on.at(results.project.sheets.paper);
        made.sheet.name = results.project.sheets.paper;
        return std::vector<SheetTrial>{made};
    };
    return on_paper_that_bears(changed.results(), made_up_pack().style, {"", whole, drawn}).front().name;
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

// A drawing of 1000 x 1000 m in squares on any paper: whole at 1:2500; at larger scales as many parts as that takes. A label in
// `crowd` at 1:2500 stands away from its point, half as many at each halving of the scale.
DrawingOnPaper in_squares(std::size_t wanted, std::size_t away) {
    const auto laid_out = [](const Results& results) {
        const double scale = std::min(results.project.sheets.smallest_scale.value_or(10000.0), 2500.0);
        const auto across = static_cast<std::size_t>(std::ceil(2500.0 / scale - 1e-9));
        return Tiling{scale, std::vector<Tile>(across * across)};
    };
    const auto drawn = [=](const Results& results) {
        const Tiling tiling = laid_out(results);
        const auto fewer = static_cast<std::size_t>(static_cast<double>(away) * tiling.denominator / 2500.0);
        return each_part(tiling, [&](std::size_t part) {
            SheetTrial made = part == 0 ? trial(wanted - fewer, fewer, 0) : SheetTrial{};
            made.sheet.kind = "plan";
            made.sheet.name = results.project.sheets.paper;
            made.sheet.destinations = {{destination_of_sheet("plan", "part " + std::to_string(part + 1)), {1.0, 2.0}}};
            return made;
        });
    };
    return {"whole", laid_out, drawn};
}

TEST(PaperChoice, ACrowdGoesOverSeveralSheetsAtALargerScale) {
    ChangedResults changed;
    const drawing::Style& style = made_up_pack().style;
    const auto sheets_for = [&](std::size_t wanted, std::size_t away) {
        return on_paper_that_bears(changed.results(), style, in_squares(wanted, away));
    };
    EXPECT_EQ(sheets_for(100, 19).size(), 1U);                          // is none
    EXPECT_EQ(sheets_for(100, 30).size(), 1U);                          // crowded, yet most can be read
    EXPECT_EQ(sheets_for(30, 15).size(), 1U);                           // a knot
    const std::vector<drawing::Sheet> two_steps = sheets_for(100, 38);  // a tenth better at 1:2000: too little left away
    ASSERT_EQ(two_steps.size(), 4U);
    EXPECT_EQ(two_steps.front().name, "A3");  // as many parts on any paper: the least of it
    const auto& places = two_steps.front().destinations;
    EXPECT_TRUE(std::any_of(places.begin(), places.end(), [](const drawing::Destination& place) {
        return place.name == destination_of_sheet("plan", "whole");
    }));
    EXPECT_EQ(sheets_for(100, 95).size(), 4U);  // 1:1000 would take nine sheets, more than a drawing goes over
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
