#include "sheets/plane_layout.h"

#include <gtest/gtest.h>

#include <cmath>

namespace selvage::sheets {
namespace {

base::Plane plane_of(double dip, double dip_direction) {
    return {{30.0, -20.0, 400.0}, base::upward_normal({base::Angle::degrees(dip), base::Azimuth::degrees(dip_direction)})};
}

TEST(PlaneLayout, KeepsDistancesBetweenPointsOfThePlane) {
    for (const double dip : {35.0, 60.0, 76.0, 90.0})
        for (const double direction : {0.0, 45.0, 121.0, 200.0, 270.0, 301.0}) {
            const PlaneLayout layout = lay_out(plane_of(dip, direction));
            const Eigen::Vector3d a = layout.world_from_layout({-120.0, 45.0}), b = layout.world_from_layout({310.0, -88.0});
            EXPECT_NEAR((a - b).norm(), std::hypot(430.0, 133.0), 1e-9);
            EXPECT_NEAR((layout.layout_from_world(a) - Eigen::Vector2d(-120.0, 45.0)).norm(), 0.0, 1e-9);
            EXPECT_NEAR(layout.normal.dot(a - layout.origin), 0.0, 1e-9);
        }
}

TEST(PlaneLayout, DropsAPointSquareOntoThePlane) {
    const PlaneLayout layout = lay_out(plane_of(60.0, 121.0));
    const Eigen::Vector3d on_plane = layout.world_from_layout({50.0, -30.0});
    const Eigen::Vector2d dropped = layout.layout_from_world(on_plane + 12.0 * layout.normal);
    EXPECT_NEAR((dropped - Eigen::Vector2d(50.0, -30.0)).norm(), 0.0, 1e-9);
}

TEST(PlaneLayout, AParallelPlaneIsReadFromTheSameElevationsWhereItIsSteep) {
    for (const double dip : {90.0, 64.0, 46.0, 30.0}) {
        const PlaneLayout layout =
            lay_out({{5.0, 7.0, -40.0}, base::upward_normal({base::Angle::degrees(dip), base::Azimuth::degrees(205.0)})});
        const PlaneLayout other = moved_off(layout, 12.0);
        EXPECT_NEAR(layout.normal.dot(other.origin - layout.origin), 12.0, 1e-9);
        const Eigen::Vector3d point = other.world_from_layout({33.0, -21.0});
        EXPECT_NEAR(layout.normal.dot(point - layout.origin), 12.0, 1e-9) << "it lies on the other plane";
        if (dip > 45.0)
            EXPECT_NEAR(layout.elevation_at(other.layout_from_world(point).y()), point.z(), 1e-9) << dip;
        else
            EXPECT_NEAR((layout.layout_from_world(point) - other.layout_from_world(point)).norm(), 0.0, 1e-9) << dip;
    }
}

TEST(PlaneLayout, RisesBySineOfTheDip) {
    // Up a plane dipping 30 degrees, 100 m on the plane are 50 m of elevation.
    const PlaneLayout layout = lay_out(plane_of(30.0, 121.0));
    EXPECT_NEAR(layout.elevation_at(100.0) - layout.elevation_at(0.0), 50.0, 1e-9);
    EXPECT_NEAR(layout.y_at(layout.elevation_at(73.0)), 73.0, 1e-9);
    EXPECT_NEAR(layout.world_from_layout({17.0, 73.0}).z(), layout.elevation_at(73.0), 1e-9);
}

TEST(PlaneLayout, HasItsMoreEasterlyEndAtTheRight) {
    for (double direction = 0.0; direction < 360.0; direction += 15.0) {
        const PlaneLayout layout = lay_out(plane_of(70.0, direction));
        const double right = layout.right_end().degrees();
        EXPECT_GE(right, 0.0);
        EXPECT_LT(right, 180.0 - 1e-6) << direction;
        const double looking = layout.looking().degrees();
        EXPECT_TRUE(looking >= 270.0 - 1e-6 || looking < 90.0) << direction;
    }
}

TEST(PlaneLayout, SaysFromWhichWallOneLooks) {
    // A vein striking 031 and dipping to 121: looking 301 one stands over its hanging wall.
    EXPECT_TRUE(lay_out(plane_of(76.0, 121.0)).from_hanging_wall());
    EXPECT_FALSE(lay_out(plane_of(76.0, 301.0)).from_hanging_wall());
    EXPECT_NEAR(lay_out(plane_of(76.0, 301.0)).looking().degrees(), 301.0, 1e-6);
    EXPECT_NEAR(lay_out(plane_of(76.0, 301.0)).dip().degrees(), 76.0, 1e-9);
}

TEST(EllipseOnPlane, HoldsItsShareOfAPlaneNormal) {
    // For two independent normals the region within r sigma holds 1 - exp(-r^2/2): 0.8 at r = 1.794 (any table of chi-squared
    // with two degrees of freedom: 3.219 at 0.80).
    const PlaneLayout layout = lay_out(plane_of(90.0, 90.0));
    const Eigen::Matrix3d covariance = Eigen::Vector3d(1.0, 9.0, 4.0).asDiagonal();
    const std::vector<Eigen::Vector2d> ring = ellipse_on_plane(layout, layout.origin, covariance, 0.8, 360);
    double widest = 0.0, highest = 0.0;
    for (const Eigen::Vector2d& place : ring) {
        widest = std::max(widest, std::abs(place.x()));
        highest = std::max(highest, std::abs(place.y()));
    }
    EXPECT_NEAR(widest, 3.0 * std::sqrt(3.219), 0.005);   // along strike: north, sd 3
    EXPECT_NEAR(highest, 2.0 * std::sqrt(3.219), 0.005);  // up the dip: sd 2
}

}  // namespace
}  // namespace selvage::sheets
