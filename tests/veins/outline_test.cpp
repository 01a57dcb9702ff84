#include "veins/outline.h"

#include <gtest/gtest.h>

#include <cmath>

namespace selvage::veins {
namespace {

TEST(Outline, CircleHasItsAreaAndItsVerticesLieOnIt) {
    const auto inside = [](const Eigen::Vector2d& x) { return 40.0 - (x - Eigen::Vector2d(3.0, 5.0)).norm(); };
    const auto loops = zero_contours(inside, {-50.0, -50.0}, {60.0, 60.0}, 5.0);
    ASSERT_EQ(loops.size(), 1u);
    for (const Eigen::Vector2d& vertex : loops[0]) EXPECT_NEAR((vertex - Eigen::Vector2d(3.0, 5.0)).norm(), 40.0, 1e-6);
    EXPECT_NEAR(signed_area(loops[0]), std::acos(-1.0) * 1600.0, 20.0);
}

TEST(Outline, AHoleInARegionTurnsTheOtherWay) {
    const auto inside = [](const Eigen::Vector2d& x) { return std::min(40.0 - x.norm(), x.norm() - 15.0); };
    const auto loops = zero_contours(inside, {-50.0, -50.0}, {50.0, 50.0}, 4.0);
    ASSERT_EQ(loops.size(), 2u);
    EXPECT_LT(signed_area(loops[0]) * signed_area(loops[1]), 0.0);
    EXPECT_NEAR(signed_area(loops[0]) + signed_area(loops[1]), std::acos(-1.0) * (1600.0 - 225.0), 25.0);
}

TEST(Outline, PartsGiveALoopEach) {
    const auto inside = [](const Eigen::Vector2d& x) {
        return std::max(20.0 - (x - Eigen::Vector2d(-30.0, 0.0)).norm(), 20.0 - (x - Eigen::Vector2d(30.0, 0.0)).norm());
    };
    EXPECT_EQ(zero_contours(inside, {-60.0, -40.0}, {60.0, 40.0}, 4.0).size(), 2u);
}

}  // namespace
}  // namespace selvage::veins
