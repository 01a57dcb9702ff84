#include "drawing/polyline.h"

#include "drawing/clipping.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

namespace selvage::drawing {
namespace {

const std::vector<Point> corner{{0.0, 0.0}, {10.0, 0.0}, {10.0, 10.0}};

TEST(Polyline, APointAlongCarriesTheDirectionThere) {
    EXPECT_DOUBLE_EQ(length_of(corner), 20.0);
    const PointAlong at = point_along(corner, 13.0);
    EXPECT_DOUBLE_EQ(at.at.x, 10.0);
    EXPECT_DOUBLE_EQ(at.at.y, 3.0);
    EXPECT_DOUBLE_EQ(at.dy, 1.0);
    EXPECT_DOUBLE_EQ(point_along(corner, 99.0).at.y, 10.0);
}

TEST(Polyline, SimplifyingKeepsEveryPointNearTheLine) {
    std::vector<Point> arc;
    for (int i = 0; i <= 200; ++i) arc.push_back({50.0 * std::cos(0.01 * i), 50.0 * std::sin(0.01 * i)});
    const std::vector<Point> thin = simplified(arc, 0.05);
    EXPECT_LT(thin.size(), 40u);
    for (const Point& p : arc) {
        double nearest = 1e9;
        for (std::size_t i = 1; i < thin.size(); ++i) nearest = std::min(nearest, distance(p, {thin[i - 1], thin[i]}));
        EXPECT_LE(nearest, 0.05 + 1e-12);
    }
}

TEST(Polyline, RoundingStaysWithinReachOfTheCorner) {
    const std::vector<Point> soft = rounded(corner, false, 2.0);
    EXPECT_DOUBLE_EQ(soft.front().x, 0.0);
    EXPECT_DOUBLE_EQ(soft.back().y, 10.0);
    for (const Point& p : soft) EXPECT_TRUE(p.y == 0.0 || p.x == 10.0 || (p.x >= 8.0 && p.y <= 2.0));
    EXPECT_LT(length_of(soft), length_of(corner));
}

TEST(Polyline, ACornerStaysSharpWhereItsArcMayNotPass) {
    const auto nowhere = [](const Point&) { return false; };
    const std::vector<Point> sharp = rounded(corner, false, 2.0, nowhere);
    ASSERT_EQ(sharp.size(), corner.size());
    EXPECT_DOUBLE_EQ(sharp[1].x, 10.0);
    EXPECT_DOUBLE_EQ(sharp[1].y, 0.0);
}

}  // namespace
}  // namespace selvage::drawing
