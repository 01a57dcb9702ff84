#include "sheets/forecast_sheet.h"

#include "sheets/changed_results.h"
#include "sheets/error_bars.h"
#include "sheets/forecast_table.h"
#include "sheets/label_text.h"
#include "sheets/not_seen_chart.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <set>

namespace selvage::sheets {
namespace {

std::vector<drawing::Sheet> sheets_of(const Results& results) {
    const MadeUpPack& pack = made_up_pack();
    return forecast_sheet(results, pack.run, grade_classes(results), section_set(results), pack.tools());
}

TEST(ForecastSheet, HoldsEveryForecastInWordsAndAsABarOfItsError) {
    const MadeUpPack& pack = made_up_pack();
    const std::vector<drawing::Sheet> sheets = sheets_of(pack.results());
    const std::string words = all_words(sheets);
    std::set<std::string> rows;
    for (const drawing::Sheet& sheet : sheets)
        for (const drawing::Destination& destination : sheet.destinations) rows.insert(destination.name);
    for (const forecast::Pierce& pierce : pack.run_results.forecast.pierces) {
        EXPECT_EQ(rows.count(forecast_row_destination(pierce.hole, pierce.vein)), 1u);
        EXPECT_TRUE(holds(words, pierce_words(pierce, pack.run_results.records.frame))) << pierce.hole;
    }
}

// A kind in words has the bar's share; of several parts of it the largest is told as one of them.
TEST(ErrorBars, WordsNameTheKindsOfTheBar) {
    ChangedResults changed;
    changed.pierces.resize(1);
    veins::ErrorBudget& budget = changed.pierces.front().budget;
    budget.measurements.clear();
    budget.parts = {{"shape of the vein between the holes", 0.8, veins::ErrorKind::shape},
                    {"survey and collar of K-9", 0.1, veins::ErrorKind::surveys},
                    {"survey and collar of K-8", 0.08, veins::ErrorKind::surveys},
                    {"depths of the contacts", 0.02, veins::ErrorKind::contacts}};
    const TypesetTable table = error_budget_table(changed.results(), made_up_pack().tools());
    EXPECT_EQ(table.rows.back().cells[1].text,
              "Made of shape of the vein between holes 80\u00a0%, surveys and collars 18\u00a0% (of it survey and collar of K-9 "
              "10\u00a0%), rest 2\u00a0%");
}

TEST(ForecastSheet, SaysHowSuchChancesCameOut) {
    const std::string words = all_words(sheets_of(made_up_pack().results()));
    EXPECT_TRUE(holds(words, "How such chances came out at drilled holes: of "));
    EXPECT_TRUE(holds(words, "(Checks and fit)"));
}

TEST(ForecastSheet, SaysSoWhereNothingIsPlanned) {
    ChangedResults changed;
    changed.pierces.clear();
    for (paths::Path& path : changed.paths) path.status = tables::HoleStatus::done;
    EXPECT_TRUE(holds(all_words(sheets_of(changed.results())), "No hole is planned or active"));
    changed.forget_veins();
    EXPECT_TRUE(holds(all_words(sheets_of(changed.results())), "No vein could be modelled"));
}

TEST(ForecastSheet, NamesPlannedHolesThatComeToNoVein) {
    ChangedResults changed;
    const std::string hole = changed.pierces.front().hole;
    changed.pierces.erase(std::remove_if(changed.pierces.begin(), changed.pierces.end(),
                                         [&](const forecast::Pierce& pierce) { return pierce.hole == hole; }),
                          changed.pierces.end());
    EXPECT_TRUE(holds(all_words(sheets_of(changed.results())), "No vein ahead of " + hole));
}

// Left and right of all that a cell draws into a box from 10 to 110 mm.
std::pair<double, double> width_drawn(const TableCell& cell) {
    double left = 1e9, right = -1e9;
    for (const drawing::Mark& mark : cell.draw({10.0, 0.0, 110.0, 4.0}))
        if (const auto* shape = std::get_if<drawing::Shape>(&mark))
            for (const drawing::Point& point : shape->rings.front()) {
                left = std::min(left, point.x);
                right = std::max(right, point.x);
            }
    return {left, right};
}

// The segments of a bar are as wide as their shares, and fill the cell; beside it the sd is to the scale of the largest.
TEST(ErrorBars, SharesFillTheBarAndSdsAreToScale) {
    const MadeUpPack& pack = made_up_pack();
    const std::vector<forecast::Pierce>& pierces = pack.run_results.forecast.pierces;
    const TypesetTable table = error_budget_table(pack.results(), pack.tools());
    double largest = 0.0;
    for (const forecast::Pierce& pierce : pierces) largest = std::max(largest, pierce.depth_sd());
    std::size_t bars = 0;
    for (const TableRow& row : table.rows) {
        if (row.joined) continue;
        ASSERT_LT(bars, pierces.size());
        const auto shares = width_drawn(row.cells.back()), sd = width_drawn(row.cells[row.cells.size() - 2]);
        EXPECT_NEAR(shares.first, 10.0, 1e-9);
        EXPECT_NEAR(shares.second, 110.0, 0.01);
        EXPECT_NEAR(sd.first, 10.0, 1e-9);
        EXPECT_NEAR(sd.second - sd.first, 100.0 * pierces[bars++].depth_sd() / largest, 1e-9);
    }
    EXPECT_EQ(bars, pierces.size());
}

// A depth's words stand beside its own line and across no other's.
TEST(NotSeenChart, WordsOfADepthCrossNoOtherDepth) {
    const MadeUpPack& pack = made_up_pack();
    std::size_t told = 0;
    for (const TableRow& row : not_seen_charts(pack.results(), pack.tools()).rows)
        for (const TableCell& cell : row.cells) {
            std::vector<double> lines;
            std::vector<drawing::Box> boxes;
            for (const drawing::Mark& mark : cell.draw({0.0, 0.0, 72.0, 50.0})) {
                if (const auto* text = std::get_if<drawing::Text>(&mark)) {
                    for (const char* what : {"call ", "stop ", "end "})
                        if (text->text.rfind(what, 0) == 0) boxes.push_back(box_of_words(*text, pack.fonts.metrics));
                } else if (const auto& ring = std::get<drawing::Shape>(mark).rings.front();
                           ring.size() == 2 && ring[0].x == ring[1].x && std::abs(ring[0].y - ring[1].y) > 10.0) {
                    lines.push_back(ring[0].x);
                }
            }
            told += boxes.size();
            for (const drawing::Box& box : boxes)
                for (const double x : lines) EXPECT_FALSE(x > box.left && x < box.right) << x;
        }
    EXPECT_GT(told, 1u);
}

// A hole that goes on to a further vein has the depth to ask at, and no stop before it.
TEST(NotSeenChart, MarksWhereAHoleThatGoesOnAsks) {
    const MadeUpPack& pack = made_up_pack();
    ChangedResults changed;
    std::string hole;
    for (const paths::Path& path : changed.paths)
        if (path.status == tables::HoleStatus::active)
            for (const forecast::Pierce& pierce : changed.pierces)
                if (pierce.hole == path.hole && is_within_reach(pierce) && hole.empty()) hole = path.hole;
    ASSERT_FALSE(hole.empty());
    const auto words = [&] {
        std::string all;
        for (const TableRow& row : not_seen_charts(changed.results(), pack.tools()).rows)
            for (const TableCell& cell : row.cells)
                for (const drawing::Mark& mark : cell.draw({0.0, 0.0, 72.0, 50.0}))
                    if (const auto* text = std::get_if<drawing::Text>(&mark)) all += "|" + text->text;
        return all;
    };
    forecast::Pierce further = *std::find_if(changed.pierces.begin(), changed.pierces.end(),
                                             [&](const forecast::Pierce& one) { return one.hole == hole; });
    changed.pierces.erase(std::remove_if(changed.pierces.begin(), changed.pierces.end(),
                                         [&](const forecast::Pierce& one) { return one.hole != hole; }),
                          changed.pierces.end());
    changed.pierces.resize(1);
    for (paths::Path& path : changed.paths)
        if (path.hole == hole) path.end_depth = further.stop_depth + 60.0;
    EXPECT_FALSE(holds(words(), "|ask ")) << words();
    further.vein_number = (further.vein_number + 1) % changed.veins.size();
    further.vein = changed.veins[further.vein_number].name();
    for (double* depth : {&further.depth, &further.depth_p10, &further.depth_p90, &further.call_depth, &further.stop_depth})
        *depth += 50.0;
    changed.pierces.push_back(further);
    EXPECT_TRUE(holds(words(), "|ask ")) << words();
}

TEST(NotSeenChart, FallsFromWhereTheHoleIsAndIsDrawnForActiveHolesAlone) {
    const MadeUpPack& pack = made_up_pack();
    const TypesetTable table = not_seen_charts(pack.results(), pack.tools());
    std::size_t charts = 0;
    for (const TableRow& row : table.rows)
        for (const TableCell& cell : row.cells) {
            ++charts;
            const std::vector<drawing::Mark> marks = cell.draw({0.0, 0.0, 72.0, 50.0});
            const auto* curve = std::get_if<drawing::Shape>(&marks.back());
            ASSERT_NE(curve, nullptr);
            const std::vector<drawing::Point>& points = curve->rings.front();
            for (std::size_t i = 1; i < points.size(); ++i) {
                EXPECT_GT(points[i].x, points[i - 1].x);
                EXPECT_LE(points[i].y, points[i - 1].y + 1e-9);
            }
        }
    std::set<std::pair<std::string, std::string>> curves;
    for (const forecast::NotSeen& place : pack.run_results.not_seen) curves.insert({place.hole, place.vein});
    EXPECT_EQ(charts, curves.size());
    EXPECT_TRUE(holds(table.end_words, "Now: the forecast's chance, of all blocks together, less"))
        << "it stands beside the forecast's own figure";
    ChangedResults changed;
    for (paths::Path& path : changed.paths)
        if (path.status == tables::HoleStatus::active) path.status = tables::HoleStatus::planned;
    EXPECT_TRUE(not_seen_charts(changed.results(), pack.tools()).rows.empty());
}

}  // namespace
}  // namespace selvage::sheets
