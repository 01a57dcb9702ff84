#include "site/triangulated_relief.h"

#include <gtest/gtest.h>

#include <cmath>

namespace selvage::site {
namespace {

double tilted_ground(double x, double y) { return 100.0 + 0.3 * x - 0.2 * y; }

std::vector<Eigen::Vector3d> points_on(double (*elevation)(double, double)) {
    std::vector<Eigen::Vector3d> points;
    for (int i = 0; i < 12; ++i)
        for (int k = 0; k < 10; ++k) {
            const double x = 10.0 * i + 3.0 * (k % 2), y = 9.0 * k + 2.0 * (i % 3);
            points.emplace_back(x, y, elevation(x, y));
        }
    return points;
}

// Linear interpolation of a plane is the plane.
TEST(TriangulatedRelief, IsLinearBetweenPoints) {
    const auto relief = triangulated(points_on(tilted_ground), {});
    ASSERT_TRUE(relief) << relief.message;
    for (const Eigen::Vector2d& at : {Eigen::Vector2d(50.0, 40.0), {23.7, 61.2}, {88.1, 12.9}})
        EXPECT_NEAR(*relief->elevation_at(at), tilted_ground(at.x(), at.y()), 1e-9);
    EXPECT_FALSE(relief->elevation_at({-5.0, 40.0}));
    EXPECT_FALSE(relief->elevation_at({50.0, 200.0}));
    EXPECT_GT(relief->usual_side(), 5.0);
    EXPECT_LT(relief->usual_side(), 20.0);
}

// A ridge of which only the crest line and two feet are measured: without its line the long triangles would cut through it.
TEST(TriangulatedRelief, FollowsABreakline) {
    const std::vector<Eigen::Vector3d> feet = {{0, 0, 0}, {100, 0, 0}, {0, 40, 0}, {100, 40, 0}, {50, 12, 7.2}};
    const std::vector<Eigen::Vector3d> crest = {{0, 20, 12}, {100, 20, 12}};
    const auto relief = triangulated(feet, {crest});
    ASSERT_TRUE(relief) << relief.message;
    for (const double x : {5.0, 33.0, 50.0, 91.0}) EXPECT_NEAR(*relief->elevation_at({x, 20.0}), 12.0, 1e-9);
    EXPECT_NEAR(*relief->elevation_at({50.0, 30.0}), 6.0, 1e-9);
}

TEST(TriangulatedRelief, BreaklinesThatCrossHaveAPointBetweenThem) {
    const std::vector<Eigen::Vector3d> feet = {{0, 0, 0}, {100, 0, 0}, {0, 100, 0}, {100, 100, 0}};
    const auto relief = triangulated(feet, {{{10, 50, 20}, {90, 50, 20}}, {{50, 10, 10}, {50, 90, 10}}});
    ASSERT_TRUE(relief) << relief.message;
    EXPECT_NEAR(*relief->elevation_at({50.0, 50.0}), 15.0, 1e-6);  // the mean of both
    EXPECT_NEAR(*relief->elevation_at({90.0, 50.0}), 20.0, 1e-6);
}

TEST(TriangulatedRelief, PointsOfOnePlaceAreTheirMean) {
    std::vector<Eigen::Vector3d> points = points_on(tilted_ground);
    points.push_back(points[57] + Eigen::Vector3d(0.0, 0.0, 2.0));
    const auto relief = triangulated(points, {});
    ASSERT_TRUE(relief) << relief.message;
    EXPECT_NEAR(*relief->elevation_at(points[57].head<2>()), points[57].z() + 1.0, 1e-9);
}

TEST(TriangulatedRelief, IsRefusedOnALine) {
    EXPECT_FALSE(triangulated({{0, 0, 1}, {1, 1, 2}, {2, 2, 3}}, {}));
    EXPECT_FALSE(triangulated({{0, 0, 1}}, {}));
}

}  // namespace
}  // namespace selvage::site
