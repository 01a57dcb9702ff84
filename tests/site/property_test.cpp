#include "site/property.h"

#include "support/map_files.h"

#include <gtest/gtest.h>

namespace selvage::site {
namespace {

TEST(Property, TellsHowFarWithinAPlaceLies) {
    const Property property{{{test::box_ring(0, 0, 100, 60), test::box_ring(40, 20, 60, 40)}}};
    EXPECT_NEAR(property.inside_by({20.0, 30.0}), 20.0, 1e-12);
    EXPECT_NEAR(property.inside_by({50.0, 30.0}), -10.0, 1e-12);  // in the hole
    EXPECT_NEAR(property.inside_by({103.0, 64.0}), -5.0, 1e-12);
    EXPECT_TRUE(property.holds({1.0, 1.0}));
    EXPECT_FALSE(property.holds({50.0, 30.0}));
}

TEST(Property, ALineIsFollowedThroughAdjoiningAreas) {
    // Two claims whose common side was surveyed twice, 0.2 m apart.
    const Property property{{{test::box_ring(0, 0, 100, 60)}, {test::box_ring(100.2, 0, 200, 60)}}};
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
