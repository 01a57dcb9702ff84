#include "site/property.h"

#include "support/map_files.h"

#include <gtest/gtest.h>

#include <cmath>

namespace selvage::site {
namespace {

TEST(Property, TellsHowFarWithinAPlaceLies) {
    const Property property({{test::box_ring(0, 0, 100, 60), test::box_ring(40, 20, 60, 40)}});
    EXPECT_NEAR(property.inside_by({20.0, 30.0}), 20.0, 1e-12);
    EXPECT_NEAR(property.inside_by({50.0, 30.0}), -10.0, 1e-12);  // in the hole
    EXPECT_NEAR(property.inside_by({103.0, 64.0}), -5.0, 1e-12);
    EXPECT_TRUE(property.holds({1.0, 1.0}));
    EXPECT_FALSE(property.holds({50.0, 30.0}));
}

// The quick way over stretches of a long limit gives what looking at every side gives.
TEST(Property, ALongLimitIsAskedExactly) {
    Ring ring;
    for (int i = 0; i < 500; ++i) {
        const double turn = i / 500.0 * 2.0 * std::acos(-1.0), radius = 100.0 + 12.0 * std::sin(11.0 * turn);
        ring.emplace_back(radius * std::cos(turn), radius * std::sin(turn));
    }
    const Property property({{ring, test::box_ring(-20, -20, 10, 15)}});
    for (double x = -130.0; x <= 130.0; x += 13.7)
        for (double y = -130.0; y <= 130.0; y += 11.3)
            EXPECT_EQ(property.inside_by({x, y}), inside_of_rings(property.areas()[0], {x, y})) << x << " " << y;
}

TEST(Property, ALineIsFollowedThroughAdjoiningAreas) {
    // Two claims whose common side was surveyed twice, 0.2 m apart.
    const Property property({{test::box_ring(0, 0, 100, 60)}, {test::box_ring(100.2, 0, 200, 60)}});
    EXPECT_FALSE(property.first_outside({10.0, 30.0}, {190.0, 30.0}));
    const auto left = property.first_outside({10.0, 30.0}, {210.0, 30.0});
    ASSERT_TRUE(left);
    EXPECT_NEAR(*left * 200.0, 190.0, 2.0);
    EXPECT_EQ(property.first_outside({-10.0, 30.0}, {10.0, 30.0}), 0.0);
}

TEST(Property, ARingThatCrossesItselfIsFound) {
    EXPECT_FALSE(self_crossing(test::box_ring(0, 0, 10, 10)));
    const auto at = self_crossing({{0, 0}, {10, 10}, {10, 0}, {0, 10}});
    ASSERT_TRUE(at);
    EXPECT_NEAR((*at - Eigen::Vector2d(5.0, 5.0)).norm(), 0.0, 1e-12);
}

}  // namespace
}  // namespace selvage::site
