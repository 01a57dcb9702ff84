#include "planning/near_holes.h"

#include "planning/straight_hole.h"

#include <gtest/gtest.h>

#include <cmath>

namespace selvage::planning {
namespace {

const double half = std::sqrt(0.5);

// Side by side at the collar, and parting all the way: none is near further down, and the card names who stands beside.
TEST(NearHoles, HolesOfOnePadThatPartAreBesideItsStartAlone) {
    const std::vector<paths::Path> paths{straight("P", 90.0, 200.0), straight("A", 80.0, 200.0, {0.0, 3.0, 0.0}),
                                         straight("B", 70.0, 200.0, {0.0, 4.5, 0.0}),
                                         straight("C", 60.0, 200.0, {0.0, 12.0, 0.0})};
    const NearHoles near = near_holes(paths[0], 0.0, 200.0, 5.0, paths);
    EXPECT_TRUE(near.under.empty());
    ASSERT_EQ(near.beside.size(), 2u);
    EXPECT_EQ(near.beside[0].hole, "A");
    EXPECT_NEAR(near.beside[0].distance, 3.0, 0.3);
    EXPECT_EQ(near.beside[1].hole, "B");
    EXPECT_TRUE(near_holes(paths[0], 100.0, 200.0, 5.0, paths).beside.empty()) << "drilled past the start";
}

// Collars 2 m apart, and it passes over the other's line 5 m down; collars 4.5 m apart, and the lines draw together down to 20 m.
TEST(NearHoles, HolesThatDrawTogetherBelowTheirCollarsAreTooNear) {
    const std::vector<paths::Path> paths{straight("P", 90.0, 200.0), straight("A", 60.0, 200.0, {0.0, -2.0, 0.0}),
                                         straight("B", 72.0, 200.0, {0.0, -4.5, 0.0})};
    const NearHoles near = near_holes(paths[0], 0.0, 200.0, 5.0, paths);
    EXPECT_TRUE(near.beside.empty());
    ASSERT_EQ(near.under.size(), 2u);
    EXPECT_EQ(near.under[0].hole, "A");
    EXPECT_LT(near.under[0].distance, 0.6);
    EXPECT_NEAR(near.under[0].depth, 5.5, 1.5);
    EXPECT_EQ(near.under[1].hole, "B");
    EXPECT_NEAR(near.under[1].depth, 20.0, 3.0);
    EXPECT_TRUE(near_holes(paths[0], 50.0, 200.0, 5.0, paths).under.empty()) << "drilled past the place";
}

// An invented pad: a planned hole and one that is drilling, collars 5.2 m apart, come to 0.2 m at 10 m.
TEST(NearHoles, APlannedHoleThatRunsIntoTheOneBesideItIsNamed) {
    const std::vector<paths::Path> paths{straight("P", 288.5, 353.1, {754.67, 608.55, 1787.35}, 59.4),
                                         straight("A", 334.7, 332.6, {753.33, 603.58, 1788.17}, 51.3)};
    const NearHoles near = near_holes(paths[0], 0.0, 353.1, 5.0, paths);
    ASSERT_EQ(near.under.size(), 1u);
    EXPECT_LT(near.under[0].distance, 0.5);
    EXPECT_NEAR(near.under[0].depth, 10.0, 2.0);
}

// One straight ahead of the other, the flatter in front: they pass under its collar 3.5 m off, square to the hole, and only part.
// The steeper in front: their lines cross 5 / (1 - tan 45 / tan 60) = 11.8 m ahead, at 16.7 m down the flatter.
TEST(NearHoles, HolesOfOneRowAreTooNearOnlyWhereTheirLinesMeet) {
    const std::vector<paths::Path> part{straight("P", 90.0, 200.0), straight("A", 90.0, 200.0, {5.0, 0.0, 0.0}, 30.0)};
    const NearHoles quiet = near_holes(part[0], 0.0, 200.0, 5.0, part);
    EXPECT_TRUE(quiet.under.empty());
    ASSERT_EQ(quiet.beside.size(), 1u);
    EXPECT_NEAR(quiet.beside[0].distance, 5.0 * half, 0.1);
    const std::vector<paths::Path> cross{straight("P", 90.0, 200.0), straight("A", 90.0, 200.0, {5.0, 0.0, 0.0}, 60.0)};
    const NearHoles near = near_holes(cross[0], 0.0, 200.0, 5.0, cross);
    ASSERT_EQ(near.under.size(), 1u);
    EXPECT_LT(near.under[0].distance, 0.3);
    EXPECT_NEAR(near.under[0].depth, 16.7, 1.0);
}

// Pad-mates count too, past the first 30 m: what is said to be the nearest is nearer than anything else there.
TEST(NearHoles, TheNearestIsThatOfAllHolesPastTheCommonStart) {
    const std::vector<paths::Path> paths{straight("P", 90.0, 200.0), straight("Mate", 80.0, 200.0, {0.0, 3.0, 0.0}),
                                         straight("Far", 90.0, 200.0, {0.0, -100.0, 0.0})};
    const NearHoles near = near_holes(paths[0], 0.0, 200.0, 1.0, paths);
    EXPECT_DOUBLE_EQ(near.nearest_from, 30.0);
    ASSERT_TRUE(near.nearest);
    EXPECT_EQ(near.nearest->hole, "Mate");
    EXPECT_NEAR(near.nearest->depth, 30.0, 1.0);
    for (double depth = 30.0; depth <= 200.0; depth += 5.0)
        EXPECT_LE(near.nearest->distance,
                  (paths::position_at(paths[0], depth) - paths::position_at(paths[1], depth)).norm() + 1e-9);
    const NearHoles alone = near_holes(paths[0], 0.0, 200.0, 1.0, {paths[0], paths[2]});
    EXPECT_DOUBLE_EQ(alone.nearest_from, 0.0);
    EXPECT_NEAR(alone.nearest->distance, 100.0, 1e-6);
    EXPECT_DOUBLE_EQ(near_holes(paths[0], 80.0, 200.0, 1.0, paths).nearest_from, 80.0) << "drilled past the start";
}

// 200 m down a hole from a far pad passes 1.5 m over it, 150 m down one of its own pad crosses 3 m under it, and another is 2 m
// off at the start: the two are told with their depths, the nearest first.
TEST(NearHoles, AreAllThatComeUnderTheClearancePastTheStart) {
    const double deep = 200.0 * half, middle = 150.0 * half;
    // From (0, -10, 0) to 3 m under the place 150 m down P, square to it.
    const Eigen::Vector3d own(middle - 3.0 * half, 10.0, -middle - 3.0 * half);
    const base::Direction along = base::direction_of(own);
    const std::vector<paths::Path> paths{straight("P", 90.0, 300.0),
                                         straight("Far", 0.0, 300.0, {deep, -100.0, 1.5 / half - deep}, 0.0),
                                         straight("Beside", 100.0, 300.0, {0.0, -2.0, 0.0}),
                                         straight("Own", along.azimuth.degrees(), 300.0, {0.0, -10.0, 0.0}, along.dip.degrees())};
    const NearHoles near = near_holes(paths[0], 0.0, 300.0, 5.0, paths);
    ASSERT_EQ(near.under.size(), 2u);
    EXPECT_EQ(near.under[0].hole, "Far");
    EXPECT_NEAR(near.under[0].distance, 1.5, 0.1);  // its place falls between two steps of 1 m
    EXPECT_NEAR(near.under[0].depth, 200.0, 2.0);
    EXPECT_EQ(near.under[1].hole, "Own");
    EXPECT_LT(near.under[1].distance, 3.1);
    EXPECT_NEAR(near.under[1].depth, 150.0, 40.0);
    EXPECT_EQ(near.nearest->hole, "Far");
    ASSERT_EQ(near.beside.size(), 1u);
    EXPECT_EQ(near.beside[0].hole, "Beside");
}

// Two that run side by side all the way do not part: that is told, from below their start on.
TEST(NearHoles, ParallelHolesCountBelowTheirStart) {
    const std::vector<paths::Path> paths{straight("P", 90.0, 200.0), straight("A", 90.0, 200.0, {0.0, 3.0, 0.0})};
    const NearHoles near = near_holes(paths[0], 0.0, 200.0, 5.0, paths);
    ASSERT_EQ(near.under.size(), 1u);
    EXPECT_NEAR(near.under[0].distance, 3.0, 1e-6);
    EXPECT_GT(near.under[0].depth, 29.0);
}

// A hole that passes close under the collar, from elsewhere, has no common start with it.
TEST(NearHoles, AHoleFromElsewhereCountsAtTheStartToo) {
    const std::vector<paths::Path> paths{straight("P", 90.0, 200.0), straight("A", 0.0, 300.0, {0.0, -100.0, -4.0}, 0.0)};
    const NearHoles near = near_holes(paths[0], 0.0, 200.0, 5.0, paths);
    ASSERT_EQ(near.under.size(), 1u);
    EXPECT_LT(near.under[0].depth, 6.0);
}

// Two holes whose lines cross half way between the metres that are looked at first: they meet.
TEST(NearHoles, TheLeastDistanceIsThatBetweenTheMetresToo) {
    const std::vector<paths::Path> paths{straight("P", 90.0, 200.0, Eigen::Vector3d::Zero(), 0.0),
                                         straight("A", 0.0, 300.0, {100.5, -100.0, 0.0}, 0.0),
                                         straight("B", 0.0, 300.0, {150.5, -100.0, 4.99}, 0.0)};
    const NearHoles near = near_holes(paths[0], 0.0, 200.0, 5.0, paths);
    ASSERT_FALSE(near.under.empty());
    EXPECT_EQ(near.under[0].hole, "A");
    const auto least = [&](const std::string& hole) {
        for (const NearHole& one : near.under)
            if (one.hole == hole) return one.distance;
        return 100.0;
    };
    const NearHoles coarse = near_holes(paths[0], 0.3, 200.3, 5.0, paths);
    EXPECT_NEAR(least("A"), coarse.under[0].distance, 0.03);  // wherever the metres are counted from
    EXPECT_LT(least("B"), 5.0);
}

// Looked at down to 230 m, for a vein that may lie so deep: what is told to be near below the 200 m that are planned says so.
TEST(NearHoles, APlaceBelowThePlannedEndSaysSo) {
    const std::vector<paths::Path> paths{straight("P", 90.0, 200.0, Eigen::Vector3d::Zero(), 0.0),
                                         straight("Within", 0.0, 300.0, {150.0, -100.0, 4.0}, 0.0),
                                         straight("Below", 0.0, 300.0, {220.0, -100.0, 2.0}, 0.0)};
    const NearHoles near = near_holes(paths[0], 0.0, 230.0, 5.0, paths);
    ASSERT_EQ(near.under.size(), 2u);
    EXPECT_EQ(near.under[0].hole, "Below");
    EXPECT_TRUE(near.under[0].past_end);
    EXPECT_FALSE(near.under[1].past_end);
    ASSERT_TRUE(near.nearest);
    EXPECT_TRUE(near.nearest->past_end);
    EXPECT_FALSE(near_holes(paths[0], 0.0, 200.0, 5.0, paths).nearest->past_end);
    EXPECT_FALSE(is_past_end(paths[0], 200.4));
    EXPECT_TRUE(is_past_end(paths[0], 200.6));
}

// A wedge 100 m down leaves its parent by 2 degrees: near as long as it must be, for both.
TEST(NearHoles, AWedgeIsBesideItsParentWhereItLeavesIt) {
    paths::Path parent = straight("P", 90.0, 300.0), wedge = straight("P-A", 90.0, 300.0, Eigen::Vector3d::Zero(), 47.0);
    parent.number = 0;
    wedge.number = 1;
    wedge.parent.emplace(0);
    wedge.start_depth = 100.0;
    wedge.stations[0].depth = 100.0;
    wedge.stations[0].position = paths::position_at(parent, 100.0);
    const std::vector<paths::Path> paths{parent, wedge};
    const NearHoles of_wedge = near_holes(wedge, 100.0, 300.0, 5.0, paths);
    EXPECT_TRUE(of_wedge.under.empty());
    EXPECT_EQ(of_wedge.beside.size(), 1u);
    const NearHoles of_parent = near_holes(parent, 0.0, 300.0, 5.0, paths);
    EXPECT_TRUE(of_parent.under.empty());
    EXPECT_EQ(of_parent.beside.size(), 1u);
}

TEST(NearHoles, LeavesOutTheHoleItselfAndCancelledOnes) {
    std::vector<paths::Path> paths{straight("P", 90.0, 200.0), straight("A", 0.0, 300.0, {0.0, -100.0, -4.0}, 0.0)};
    EXPECT_FALSE(near_holes(paths[0], 0.0, 200.0, 5.0, {paths[0]}).nearest);
    paths[1].status = tables::HoleStatus::cancelled;
    EXPECT_FALSE(near_holes(paths[0], 0.0, 200.0, 5.0, paths).nearest);
}

}  // namespace
}  // namespace selvage::planning
