#include "faults/fault_plane.h"
#include "faults/faults_ahead.h"
#include "sheets/call_and_stop.h"
#include "sheets/card_facts.h"
#include "sheets/changed_results.h"
#include "sheets/clearance.h"
#include "sheets/cross_section.h"
#include "sheets/drawn_side.h"
#include "sheets/faulted_sheets.h"
#include "sheets/forecast_table.h"
#include "sheets/front_words.h"
#include "sheets/intercept_table.h"
#include "sheets/key_plan.h"
#include "sheets/label_text.h"
#include "sheets/overview_marks.h"
#include "sheets/overview_page.h"
#include "sheets/plan_marks.h"
#include "sheets/plan_veins.h"
#include "sheets/plane_layout.h"
#include "sheets/section_set.h"
#include "sheets/stated_faults.h"
#include "sheets/way_drawing.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

namespace selvage::sheets {
namespace {

// A hole from the foot-wall side of the fault to the vein in the hanging-wall block.
FaultedSheets with_hole_through_the_fault() {
    FaultedSheets made(true);
    made.plan_hole("P-1", {100.0, 20.0}, 45.0, 0.0);
    return made;
}

TEST(FaultsAhead, AStraightHoleCrossesAFaultWhereItsLineMeetsThePlane) {
    const FaultedSheets made = with_hole_through_the_fault();
    const paths::Path& path = made.world.scene.paths.back();
    const base::Plane& plane = made.world.fault.plane;
    const Eigen::Vector3d start = paths::position_at(path, 0.0), direction = paths::direction_at(path, 0.0);
    const double depth = -base::signed_distance(plane, start) / plane.normal.dot(direction);
    faults::Events events;
    events.faults = {made.world.fault};
    const std::vector<faults::FaultAhead> ahead = faults::faults_ahead(path, events, 0.0, path.end_depth);
    ASSERT_EQ(ahead.size(), 1u);
    EXPECT_NEAR(ahead[0].depth, depth, 0.01);
    // At least the fault's waves of 2 m, over the sine of the angle: 8 in 10 lie within 1.28 sds.
    const double least = 1.2816 * 2.0 / std::abs(plane.normal.dot(direction));
    EXPECT_GT(ahead[0].depth_p90 - ahead[0].depth, least);
    EXPECT_NEAR(ahead[0].depth_p90 - ahead[0].depth, ahead[0].depth - ahead[0].depth_p10, 1e-9);
    for (const auto& [from, to] : {std::pair(depth + 1.0, path.end_depth), std::pair(0.0, depth - 1.0)})
        for (const faults::FaultAhead& near : faults::faults_ahead(path, events, from, to)) EXPECT_FALSE(near.crosses);
}

TEST(FaultsAhead, StandBesideCallAndStop) {
    const FaultedSheets made = with_hole_through_the_fault();
    const Results results = made.results();
    ASSERT_EQ(made.pierces.size(), 1u);
    const forecast::Pierce& pierce = made.pierces[0];
    EXPECT_EQ(pierce.crossing.block, "Cross Fault+");
    const CallAndStop rule = call_and_stop(pierce, results);
    ASSERT_EQ(rule.faults.size(), 1u);
    EXPECT_LT(rule.faults[0].depth, rule.call);
    const std::string words = call_and_stop_words(pierce, results);
    EXPECT_EQ(words.rfind("on the way Cross Fault at ", 0), 0u) << words;
    EXPECT_NE(words.find("in 8 holes of 10; call the geologist at "), std::string::npos) << words;
}

std::string words_of_rows(const TypesetTable& table) {
    std::string words;
    for (const TableRow& row : table.rows)
        for (const TableCell& cell : row.cells) words += cell.text + "|";
    return words;
}

// The week and the remarks of the forecasts tell of a fault that lies before the vein; one near the vein that the hole may pass
// by is told as such.
TEST(FaultsAhead, AreToldOnTheWeekAndBesideTheForecast) {
    FaultedSheets made = with_hole_through_the_fault();
    const faults::FaultAhead ahead = call_and_stop(made.pierces[0], made.results()).faults.at(0);
    const std::string told = fault_in_short(ahead, made.results().records.frame);
    EXPECT_EQ(told.rfind("Cross Fault at ", 0), 0u);
    EXPECT_NE(words_of_rows(next_table(made.results())).find("; on the way " + told), std::string::npos);
    const Results results = made.results();
    EXPECT_NE(words_of_rows(forecast_table(results, grade_classes(results), section_set(results))).find("|" + told),
              std::string::npos);
    const faults::FaultAhead beside{"Cross Fault", false, 250.0, 227.0, 272.0, 0.31};
    EXPECT_EQ(fault_in_short(beside, results.records.frame), "perhaps Cross Fault, 227–272 m");
    EXPECT_EQ(fault_ahead_words(beside, results.records.frame), "perhaps Cross Fault, 227 to 272 m (chance 0.31)");
}

// 0.79 to cross there, 0.89 of the vein if so, and the hole ends before most of it: 0.70 that it is there, 0.09 to meet it.
TEST(ForecastTable, GivesEachChanceItsOwnColumn) {
    FaultedSheets made = with_hole_through_the_fault();
    forecast::Pierce& pierce = made.pierces[0];
    pierce.crossing.chance = 0.79;
    pierce.presence = 0.89;
    pierce.chance_reached = 0.1;
    const Results results = made.results();
    const TypesetTable table = forecast_table(results, grade_classes(results), section_set(results));
    std::string heads, figures;
    for (std::size_t i = 0; i < table.columns.size(); ++i)
        if (table.columns[i].head == "Chance") {
            heads += table.columns[i].unit + "|";
            figures += table.rows[0].cells[i].text + "|";
        }
    EXPECT_EQ(heads, "to cross|vein if so|there|to meet|");
    EXPECT_EQ(figures, "0.79|0.89|0.70|0.09|");
}

// A hole that ends a metre short of where the fault should come.
TEST(FaultsAhead, OneThatTheLineDoesNotComeToIsToldWithItsChance) {
    FaultedSheets made = with_hole_through_the_fault();
    const double depth = call_and_stop(made.pierces[0], made.results()).faults.at(0).depth;
    made.world.scene.paths.back().end_depth = depth - 1.0;
    made.pierces.clear();
    const Results results = made.results();
    const std::vector<faults::FaultAhead> ahead = faults_on_way(made.world.scene.paths.back(), results);
    ASSERT_EQ(ahead.size(), 1u);
    EXPECT_FALSE(ahead[0].crosses);
    // A metre or less off at the end, known to the waves' 2 m at best: between one in three and one in two.
    EXPECT_GT(ahead[0].chance, 0.3);
    EXPECT_LT(ahead[0].chance, 0.5);
    EXPECT_LE(ahead[0].depth_p90, depth - 1.0);
    EXPECT_EQ(fault_ahead_words(ahead[0], results.records.frame).rfind("perhaps Cross Fault, ", 0), 0u);
}

// The card's list of dangers says no more of it than the forecast does.
TEST(FaultsAhead, OneThatTheLineDoesNotComeToIsNoCertainDangerOnTheCard) {
    FaultedSheets made = with_hole_through_the_fault();
    const auto told = [&] {
        const Results results = made.results();
        std::string words;
        for (const CardFacts& facts : card_facts(results))
            for (const planning::Danger& danger : facts.dangers)
                words += danger_depths(danger, results.records.frame) + " " + danger_words(danger, facts, results.records.frame) +
                         "\n";
        return words;
    };
    EXPECT_TRUE(holds(told(), "m Cross Fault, likely at ")) << told();
    EXPECT_FALSE(holds(told(), "perhaps")) << told();
    made.world.scene.paths.back().end_depth = call_and_stop(made.pierces[0], made.results()).faults.at(0).depth - 1.0;
    made.pierces.clear();
    const Results results = made.results();
    const faults::FaultAhead fault = faults_on_way(made.world.scene.paths.back(), results).at(0);
    EXPECT_TRUE(holds(told(), "m perhaps Cross Fault (chance " + chance_text(fault.chance) + ")")) << told();
}

TEST(FaultsAhead, AreToldForEveryVeinBehindThem) {
    FaultedSheets made = with_hole_through_the_fault();
    forecast::Pierce behind = made.pierces[0];
    behind.depth += 10.0;
    behind.stop_depth += 10.0;
    made.pierces.push_back(behind);
    const Results results = made.results();
    for (const forecast::Pierce& pierce : made.pierces) EXPECT_EQ(call_and_stop(pierce, results).faults.size(), 1u);
}

TEST(Way, SaysFirstWhatForbidsToDrill) {
    FaultedSheets made = with_hole_through_the_fault();
    const auto only_fault = way_words("P-1", made.results());
    ASSERT_FALSE(only_fault.empty());
    EXPECT_EQ(only_fault.back().first, "Fault");
    EXPECT_NE(only_fault.back().second.find("Cross Fault at "), std::string::npos);
    made.project.plan.clearance = 200.0;
    const auto words = way_words("P-1", made.results());
    EXPECT_EQ(words.front().first, "Too near");
    EXPECT_NE(words.front().second.find("200 m wanted"), std::string::npos);
    EXPECT_EQ(words.back().first, "Fault");
}

TEST(Way, StandsBesideTheTraceOnTheSection) {
    FaultedSheets made = with_hole_through_the_fault();
    made.project.plan.clearance = 60.0;
    const Results results = made.results();
    const planning::NearHoles near = near_ahead(made.world.scene.paths.back(), results);
    ASSERT_FALSE(near.under.empty());
    const std::string fault =
        "Cross Fault " + fault_ahead_figures(call_and_stop(made.pierces[0], results).faults.at(0), results.records.frame);
    const GradeClasses classes = grade_classes(results);
    bool has_fault = false, has_sign = false;
    for (const drawing::Sheet& sheet :
         cross_sections(results, section_set(results), classes, key_map(results), made.run, made.tools())) {
        has_fault = has_fault || says(sheet, fault);
        has_sign = has_sign || (says(sheet, "too near another") &&
                                says(sheet, "P-1: " + near_hole_words(near.under[0], results.records.frame)));
    }
    EXPECT_TRUE(has_fault) << fault;
    EXPECT_TRUE(has_sign);
}

TEST(OlderFault, IsSaidNotToCutTheVein) {
    FaultedSheets made(true);
    const auto words = [&] { return older_words(made.results(), "Cross Fault", {0}); };
    EXPECT_EQ(words(), "");
    made.world.scene.settings.events.order = {"Cross Fault", "North"};
    EXPECT_EQ(words(), "older: does not cut North");
}

TEST(DrawnSide, DistanceFromAFaultIsSquareToIt) {
    const FaultedSheets made(true);
    const base::Plane& plane = made.world.fault.plane;
    const Results results = made.results();
    EXPECT_NEAR(distance_from_fault(results, "Cross Fault", plane.point + 7.0 * plane.normal), 7.0, 1e-9);
    EXPECT_NEAR(distance_from_fault(results, "Cross Fault", plane.point - 3.0 * plane.normal), -3.0, 1e-9);
    EXPECT_EQ(distance_from_fault(results, "No Fault", plane.point), 0.0);
}

TEST(Blocks, AreNamedInTheTablesAndOnTheSections) {
    const FaultedSheets made = with_hole_through_the_fault();
    const Results results = made.results();
    const GradeClasses classes = grade_classes(results);
    const SectionSet sections = section_set(results);
    const std::vector<drawing::Sheet> tables = intercept_table(results, made.run, classes, sections, made.tools());
    EXPECT_TRUE(says(tables.front(), "Block"));
    EXPECT_TRUE(says(tables.front(), "Cross Fault+"));
    EXPECT_TRUE(says(tables.front(), "Cross Fault-"));
    bool plus = false, minus = false;
    for (const drawing::Sheet& sheet : cross_sections(results, sections, classes, key_map(results), made.run, made.tools())) {
        plus = plus || says(sheet, "North vein, hanging wall of Cross Fault");
        minus = minus || says(sheet, "North vein, foot wall of Cross Fault");
    }
    EXPECT_TRUE(plus);
    EXPECT_TRUE(minus);
}

TEST(KeyMap, ShowsTheFaultsAtTheVeinsLevel) {
    const FaultedSheets made(true);
    const KeyMap map = key_map(made.results());
    ASSERT_EQ(map.faults.size(), 1u);
    EXPECT_EQ(map.faults[0].name, "Cross Fault");
    for (const Eigen::Vector2d& end : {map.faults[0].a, map.faults[0].b})
        EXPECT_NEAR(base::signed_distance(made.world.fault.plane, {end.x(), end.y(), map.elevation}), 0.0, 1e-6);
    for (const KeyMap::Hole& hole : map.holes) EXPECT_LT(hole.trace.front().norm(), map.faults[0].a.norm());
}

// At the ground each block's trace runs on to the fault itself; where only the model ends a bar says so.
TEST(PlanWithFault, TheVeinRunsOnToTheFaultAndHasABarWhereTheModelEnds) {
    const FaultedSheets made(true, -60.0);
    const PaperFrame frame{{0.0, 0.0, 300.0, 250.0}, {30.0, -20.0}, 2.0};
    DrawnSigns drawn;
    const std::vector<VeinAtGround> veins = veins_at_ground(made.results(), frame, drawn, made.tools());
    ASSERT_EQ(veins.size(), 1u);
    ASSERT_EQ(veins[0].pieces.size(), 2u);
    std::size_t at_fault = 0;
    for (const std::vector<Point>& piece : veins[0].pieces)
        for (const Point& end : {piece.front(), piece.back()}) {
            const Eigen::Vector2d place = frame.drawn_from_paper(end);
            // A metre under the ground, where the model still is.
            const double off = base::signed_distance(made.world.fault.plane, {place.x(), place.y(), -61.0});
            at_fault += std::abs(off) < 0.05 ? 1 : 0;
        }
    EXPECT_EQ(at_fault, 2u);
    EXPECT_EQ(drawn.signs.count(Sign::model_end), 1u);
}

// The fault's tilt is known to 4 degrees or so: its place to less than a millimetre of paper beside its point, to many far off.
void tilt_in_doubt(faults::Fault& fault) {
    fault.first_axis = fault.plane.normal.cross(Eigen::Vector3d::UnitZ()).normalized();
    fault.second_axis = fault.plane.normal.cross(fault.first_axis);
    fault.covariance(1, 1) = fault.covariance(2, 2) = 0.07 * 0.07;
}

TEST(FaultsInSpace, AreDrawnByHowWellTheirPlaceIsKnownAlongThem) {
    FaultedSheets made(true);
    tilt_in_doubt(made.world.scene.settings.events.faults.front());
    const Results results = made.results();
    const Eigen::Vector3d middle = made.world.fault.plane.point, reach(300.0, 300.0, 300.0);
    const AxonometricView view = axonometric_view(view_direction(results), {middle - reach, middle + reach},
                                                  {0.0, 0.0, 300.0, 250.0}, scales_of(results.project, made.style));
    const std::vector<FaultSurface> faults = faults_beside_veins(results, middle - reach, middle + reach);
    ASSERT_EQ(faults.size(), 1u);
    EXPECT_GE(faults[0].sd(middle), faults::waves_sd);
    EXPECT_GT(faults[0].sd(faults[0].corners.front()), 2.0 * faults[0].sd(middle));
    std::set<WallStyle> styles;
    for (const FaultOutline::Part& part : fault_outlines(faults, bodies_seen(results, view), view)[0].parts)
        styles.insert(part.style);
    EXPECT_GT(styles.size(), 1u);
}

TEST(FaultsInSpace, TheLegendGivesTheThresholdsOfTheSheetsOwnScale) {
    const FaultedSheets made(true);
    const Results results = made.results();
    AxonometricView view;
    view.paper.metres_per_mm = 4.0;
    OverviewSigns signs;
    signs.drawn.signs = {Sign::fault_approximate};
    const GradeClasses classes = grade_classes(results);
    PointsInSpace points;
    points.counts.assign(hit_signs, 0);
    points.hidden.assign(hit_signs, 0);
    const PageContent page = overview_page(results, view, level_set(results), signs, points, classes, made.tools());
    std::string legend;
    for (const LegendGroup& group : page.legend)
        for (const LegendEntry& entry : group.entries) legend += entry.words + "; ";
    EXPECT_NE(legend.find("within 40 m"), std::string::npos) << legend;
}

TEST(WithinPlanes, LeavesOfAnEllipseWhatItsBlockHolds) {
    const PlaneLayout layout = lay_out({Eigen::Vector3d::Zero(), Eigen::Vector3d::UnitZ()});
    const std::vector<Eigen::Vector2d> ring =
        ellipse_on_plane(layout, Eigen::Vector3d::Zero(), Eigen::Matrix3d::Identity(), 0.8, 90);
    const base::Plane east_of{Eigen::Vector3d(0.5, 0.0, 0.0), Eigen::Vector3d::UnitX()};
    const std::vector<Eigen::Vector2d> left = within_planes(layout, ring, {east_of});
    double most = -9.0;
    for (const Eigen::Vector2d& place : left) most = std::max(most, layout.world_from_layout(place).x());
    EXPECT_NEAR(most, 0.5, 1e-9);
    EXPECT_EQ(within_planes(layout, ring, {}).size(), ring.size());
    EXPECT_LT(within_planes(layout, ring, {{Eigen::Vector3d(-5.0, 0.0, 0.0), Eigen::Vector3d::UnitX()}}).size(), 3u);
}

}  // namespace
}  // namespace selvage::sheets
