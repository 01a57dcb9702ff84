#include "site/ground.h"

#include "support/reliefs.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

namespace selvage::site {
namespace {

const base::Plane level_ten{Eigen::Vector3d(0.0, 0.0, 10.0), Eigen::Vector3d::UnitZ()};

double hill(double east, double north) { return 60.0 - (east * east + north * north) / 500.0; }

// A hill of 200 x 200 m on assumed ground at 10 m.
Ground hilly() { return Ground(level_ten, test::grid_relief(-100.0, -100.0, 100, 100, 2.0, hill)); }

TEST(Ground, IsMeasuredWhereThereAreDataElseAssumed) {
    const Ground ground = hilly();
    EXPECT_TRUE(ground.is_given_at({20.0, 30.0}));
    EXPECT_NEAR(*ground.elevation_at({20.0, 30.0}), hill(20.0, 30.0), 0.01);
    EXPECT_FALSE(ground.is_given_at({120.0, 0.0}));
    EXPECT_EQ(*ground.elevation_at({120.0, 0.0}), 10.0);
    EXPECT_FALSE(Ground().elevation_at({0.0, 0.0}));
    EXPECT_FALSE(Ground(std::nullopt, test::grid_relief(0, 0, 5, 5, 1.0, hill)).elevation_at({9.0, 0.0}));
}

TEST(Ground, InAHoleOfItsDataItIsAssumed) {
    const auto holed = [](double east, double north) {
        return std::hypot(east, north) < 10.0 ? std::numeric_limits<double>::quiet_NaN() : hill(east, north);
    };
    const auto relief = test::grid_relief(-100.0, -100.0, 100, 100, 2.0, holed);
    EXPECT_EQ(coverage_at(*relief, {0.0, 0.0}), Coverage::hole);
    EXPECT_EQ(coverage_at(*relief, {50.0, 0.0}), Coverage::data);
    EXPECT_EQ(coverage_at(*relief, {150.0, 0.0}), Coverage::beyond);
    EXPECT_EQ(*Ground(level_ten, relief).elevation_at({0.0, 0.0}), 10.0);
}

// The hill's slope at radius r is r/250.
TEST(Ground, ItsPlaneTouchesIt) {
    const Ground ground = hilly();
    const Eigen::Vector3d normal = ground.plane_at({50.0, 0.0})->normal;
    EXPECT_NEAR(normal.x() / normal.z(), 0.2, 1e-3);
    EXPECT_NEAR(normal.y(), 0.0, 1e-3);
    EXPECT_NEAR(*ground.height_of({50.0, 0.0, hill(50.0, 0.0) - 7.0}), -7.0 / std::hypot(1.0, 0.2), 0.01);
    EXPECT_EQ(ground.plane_at({150.0, 0.0})->normal, Eigen::Vector3d::UnitZ());
}

TEST(Ground, ALineComesThroughItWhereItFirstMeetsIt) {
    const Ground ground = hilly();
    const Eigen::Vector3d from(-60.0, 0.0, 0.0), up(std::sqrt(0.5), 0.0, std::sqrt(0.5));
    const auto along = ground.distance_along(from, up, 500.0);
    ASSERT_TRUE(along);
    const Eigen::Vector3d at = from + *along * up;
    EXPECT_NEAR(at.z(), hill(at.x(), 0.0), 0.01);
    EXPECT_NEAR(*ground.distance_along({0.0, 0.0, 10.0}, Eigen::Vector3d::UnitZ(), 100.0), 50.0, 0.01);
    EXPECT_NEAR(*ground.distance_along({0.0, 0.0, 100.0}, -Eigen::Vector3d::UnitZ(), 100.0), 40.0, 0.01);
    EXPECT_FALSE(ground.distance_along({0.0, 0.0, 10.0}, Eigen::Vector3d::UnitZ(), 40.0));
    EXPECT_FALSE(ground.distance_along({0.0, 0.0, 100.0}, Eigen::Vector3d::UnitZ(), 1000.0));
    // Level through the hill at 40 m: in at x = -100 where the grid begins (20 m there), out no more; from within, out at 100.
    EXPECT_NEAR(*ground.distance_along({0.0, 0.0, 40.0}, Eigen::Vector3d::UnitX(), 500.0), 100.0, 0.2);
}

TEST(Ground, AnAssumedPlaneIsMetExactly) {
    const Ground ground(level_ten);
    EXPECT_NEAR(*ground.distance_along({0.0, 0.0, -20.0}, Eigen::Vector3d(0.6, 0.0, 0.8), 1e6), 37.5, 1e-12);
    EXPECT_FALSE(ground.distance_along({0.0, 0.0, -20.0}, Eigen::Vector3d::UnitX(), 1e6));
    EXPECT_EQ(*ground.height_of({5.0, 5.0, 12.0}), 2.0);
}

}  // namespace
}  // namespace selvage::site
