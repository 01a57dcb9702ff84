#include "vein_scene.h"

#include <gtest/gtest.h>

#include <algorithm>

namespace selvage::veins {
namespace {

// Nine hits about (50, 50) and one more hole over (75, 75) without a pick.
struct Case {
    Scene scene;
    Case() { scene.lattice(3, 3); }

    const NoVein* row(const std::string& hole = "M-1") {
        veins = scene.model();
        const auto& rows = veins.at(0).no_vein();
        const auto found = std::find_if(rows.begin(), rows.end(), [&](const NoVein& one) { return one.hole == hole; });
        return found == rows.end() ? nullptr : &*found;
    }
    std::vector<Vein> veins;
};

TEST(Misses, ALoggedHoleWithoutAPickIsAMiss) {
    Case one;
    one.scene.hole("M-1", {75.0, 75.0}, 60.0, 20.0);
    const NoVein* row = one.row();
    ASSERT_NE(row, nullptr);
    EXPECT_EQ(row->reason, NoVeinReason::not_logged);
    EXPECT_TRUE(row->is_miss());
    EXPECT_NEAR(row->depth, Scene::before_vein, 4.0);
    EXPECT_LT(row->depth_p10, row->depth);
    EXPECT_LT(row->depth, row->depth_p90);
    EXPECT_EQ(one.veins[0].summary().no_vein, 1u);
    EXPECT_EQ(one.veins[0].summary().intercepts, 9u);
}

TEST(Misses, AHoleThatStopsAboveIsNone) {
    Case one;
    one.scene.hole("M-1", {75.0, 75.0}, 60.0, 20.0, -10.0);
    const NoVein* row = one.row();
    ASSERT_NE(row, nullptr);
    EXPECT_EQ(row->reason, NoVeinReason::stopped_short);
    EXPECT_FALSE(row->is_miss());
}

TEST(Misses, AnActiveHoleCountsAsFarAsItIsDrilled) {
    Case one;
    paths::Path& path = one.scene.hole("M-1", {75.0, 75.0}, 60.0, 20.0);
    path.status = tables::HoleStatus::active;
    path.drilled_depth = 100.0;
    EXPECT_EQ(one.row(), nullptr);  // it has not stopped
    one.scene.paths.back().drilled_depth = 190.0;
    EXPECT_EQ(one.row()->reason, NoVeinReason::not_logged);
}

TEST(Misses, PlannedAndCancelledHolesAndChannelsHaveNoRow) {
    for (const auto status : {tables::HoleStatus::planned, tables::HoleStatus::cancelled}) {
        Case one;
        one.scene.hole("M-1", {75.0, 75.0}, 60.0, 20.0).status = status;
        EXPECT_EQ(one.row(), nullptr);
    }
    Case one;
    one.scene.hole("M-1", {75.0, 75.0}, 60.0, 20.0).type = tables::HoleType::channel;
    EXPECT_EQ(one.row(), nullptr);
}

TEST(Misses, CoreThatNobodyLoggedIsNotJudged) {
    Case one;
    one.scene.hole("M-1", {75.0, 75.0}, 60.0, 20.0);
    one.scene.records.geology.back().to = 145.0;
    EXPECT_EQ(one.row()->reason, NoVeinReason::not_judged);
}

TEST(Misses, LostCoreIsNoMiss) {
    Case one;
    one.scene.hole("M-1", {75.0, 75.0}, 60.0, 20.0);
    one.scene.records.recovery.push_back(test::recovery("M-1", 100.0, 200.0, 0.7));
    EXPECT_EQ(one.row()->reason, NoVeinReason::lost_core);
    one.scene.records.recovery.back().recovery = 0.85;
    EXPECT_EQ(one.row()->reason, NoVeinReason::not_logged);
}

TEST(Misses, OffTheGroundIsNotJudgedAndFarOffHasNoRow) {
    Case one;
    const double step_out = 100.0;
    one.scene.settings.plan.step_out = step_out;
    one.scene.hole("M-1", {100.0 + 1.5 * step_out, 50.0}, 60.0, 20.0);
    EXPECT_EQ(one.row()->reason, NoVeinReason::not_judged);
    Case far;
    far.scene.settings.plan.step_out = step_out;
    far.scene.hole("M-1", {100.0 + 2.5 * step_out, 50.0}, 60.0, 20.0);
    EXPECT_EQ(far.row(), nullptr);
}

TEST(Misses, AbsentPicksAreMissesWhateverWasLogged) {
    Case one;
    one.scene.hole("M-1", {75.0, 75.0}, 60.0, 20.0);
    one.scene.records.geology.pop_back();
    one.scene.intercepts.not_there.push_back({{}, "M-1", "North", 140.0, 160.0, tables::PickState::absent});
    EXPECT_EQ(one.row()->reason, NoVeinReason::absent);
    one.scene.intercepts.not_there.back().state = tables::PickState::faulted;
    EXPECT_EQ(one.row()->reason, NoVeinReason::fault_gap);
    EXPECT_FALSE(one.row()->is_miss());
}

TEST(Misses, AHoleWithADoubtfulPickIsNeitherHitNorMiss) {
    Case one;
    one.scene.hole("M-1", {75.0, 75.0}, 60.0, 20.0);
    tables::Pick pick;
    pick.hole = "M-1";
    pick.vein = "North";
    pick.certainty = 3;
    one.scene.records.picks.push_back(pick);
    EXPECT_EQ(one.row(), nullptr);
}

TEST(Misses, CutTheExtentHalfWayAndLowerThePresence) {
    Case one;
    const double before = one.scene.model()[0].at(one.scene.intercepts.met[4].point).presence;
    one.scene.hole("M-1", {150.0, 50.0}, 60.0, 20.0);
    ASSERT_NE(one.row(), nullptr);
    const Vein& vein = one.veins[0];
    const auto edges = vein.edges();
    EXPECT_TRUE(
        std::any_of(edges.begin(), edges.end(), [](const EdgeLine& e) { return e.reason == EdgeReason::half_way_to_miss; }));
    EXPECT_FALSE(vein.at(one.scene.chart.world_from_chart({150.0, 50.0, 0.0})).within_extent);
    EXPECT_TRUE(vein.at(one.scene.chart.world_from_chart({110.0, 50.0, 0.0})).within_extent);
    EXPECT_LT(vein.at(one.scene.intercepts.met[4].point).presence, before);
}

// A miss weighs where it lies: little among the hits, much beside itself.
TEST(Misses, PresenceFallsTowardsAMiss) {
    Case one;
    one.scene.hole("M-1", {150.0, 50.0}, 60.0, 20.0);
    one.scene.hole("M-2", {-50.0, 50.0}, 60.0, 20.0);
    ASSERT_NE(one.row(), nullptr);
    const auto presence_at = [&](double u) { return one.veins[0].at(one.scene.chart.world_from_chart({u, 50.0, 0.0})).presence; };
    EXPECT_GT(presence_at(50.0), 0.85);
    EXPECT_LT(presence_at(150.0), 0.5);
    EXPECT_LT(presence_at(150.0), presence_at(125.0));
    EXPECT_LT(presence_at(125.0), presence_at(100.0));
}

}  // namespace
}  // namespace selvage::veins
