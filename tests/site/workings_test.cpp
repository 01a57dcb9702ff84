#include "site/workings.h"

#include "support/map_files.h"

#include <gtest/gtest.h>

namespace selvage::site {
namespace {

Workings one_box() { return {{"adit", {test::box_ring(0, 0, 40, 4)}, prism({test::box_ring(0, 0, 40, 4)}, -3.0, 0.0)}}; }

TEST(Workings, APrismIsClosedWithItsHoles) {
    const auto solid = prism({test::box_ring(0, 0, 40, 20), test::box_ring(10, 5, 30, 15)}, -3.0, 0.0);
    ASSERT_NE(solid, nullptr);
    EXPECT_TRUE(solid->is_closed);
    EXPECT_NEAR(mesh::volume(solid->mesh), (40.0 * 20.0 - 20.0 * 10.0) * 3.0, 1e-9);
    EXPECT_EQ(solid->distance({5.0, 2.0, -1.0}), 0.0);
    EXPECT_NEAR(solid->distance({20.0, 10.0, -1.5}), 5.0, 1e-9);  // in the pillar
    EXPECT_NEAR(solid->distance({-3.0, 10.0, 4.0}), 5.0, 1e-9);
    EXPECT_GT(solid->distance({500.0, 10.0, 4.0}, 10.0), 10.0);
    EXPECT_EQ(prism({{{0, 0}, {10, 10}, {10, 0}, {0, 10}}}, 0.0, 1.0), nullptr);
}

// Straight down 2 m beside the wall: within 5 m of it from sqrt(25 - 4) over its roof to as much under its floor.
TEST(Workings, AHoleIsNearThemFromTo) {
    const auto near = near_workings(one_box(), {{20.0, -2.0, 30.0}, {20.0, -2.0, -40.0}}, 5.0);
    ASSERT_EQ(near.size(), 1U);
    const double reach = std::sqrt(25.0 - 4.0);
    EXPECT_NEAR(near[0].from, 30.0 - reach, 0.3);
    EXPECT_NEAR(near[0].to, 33.0 + reach, 0.3);
    EXPECT_NEAR(near[0].nearest, 2.0, 1e-9);
    EXPECT_TRUE(near_workings(one_box(), {{20.0, -6.0, 30.0}, {20.0, -6.0, -40.0}}, 5.0).empty());
    EXPECT_EQ(near_workings(one_box(), {{20.0, 2.0, 30.0}, {20.0, 2.0, -40.0}}, 5.0).front().nearest, 0.0);
}

TEST(Workings, ABendBackIsASecondStretch) {
    const auto near =
        near_workings(one_box(), {{20.0, -30.0, -1.0}, {20.0, 40.0, -1.0}, {60.0, 40.0, -1.0}, {30.0, 2.0, -1.0}}, 3.0);
    ASSERT_EQ(near.size(), 2U);
    EXPECT_NEAR(near[0].from, 27.0, 0.3);
    EXPECT_NEAR(near[0].to, 37.0, 0.3);
    EXPECT_GT(near[1].from, 110.0);
}

TEST(Workings, OfUnknownElevationKeepNobodyAway) {
    const Workings unknown = {{"old stope", {test::box_ring(0, 0, 40, 4)}, nullptr}};
    EXPECT_TRUE(near_workings(unknown, {{20.0, 2.0, 30.0}, {20.0, 2.0, -40.0}}, 5.0).empty());
}

}  // namespace
}  // namespace selvage::site
