#include "veins/chart.h"

#include "base/angle.h"

#include <gtest/gtest.h>
#include <Eigen/LU>

namespace selvage::veins {
namespace {

base::Plane dipping(double dip, double dip_direction) {
    return {Eigen::Vector3d(10.0, 20.0, 30.0),
            base::upward_normal({base::Angle::degrees(dip), base::Azimuth::degrees(dip_direction)})};
}

// A plane that dips 60 degrees east: its normal leans east, strike runs north, up the dip is to the west and up.
TEST(Chart, HasStrikeUpDipAndUpwardNormalForAxes) {
    const Chart chart = chart_of(dipping(60.0, 90.0));
    EXPECT_LT((chart.w() - Eigen::Vector3d(0.8660254037844386, 0.0, 0.5)).norm(), 1e-12);
    EXPECT_LT((chart.u() - Eigen::Vector3d(0.0, 1.0, 0.0)).norm(), 1e-12);
    EXPECT_LT((chart.v() - Eigen::Vector3d(-0.5, 0.0, 0.8660254037844386)).norm(), 1e-12);
}

TEST(Chart, DoesNotDependOnTheSignOfTheNormal) {
    base::Plane plane = dipping(35.0, 200.0);
    const Chart chart = chart_of(plane);
    plane.normal = -plane.normal;
    EXPECT_EQ(chart_of(plane).chart_from_world_rotation, chart.chart_from_world_rotation);
}

TEST(Chart, TakesAVerticalPlaneToTheEastAndANorthernOneToTheNorth) {
    EXPECT_LT(
        (chart_of(dipping(90.0, 250.0)).w() - base::upward_normal({base::Angle::degrees(90.0), base::Azimuth::degrees(70.0)}))
            .norm(),
        1e-12);
    EXPECT_LT((chart_of(dipping(90.0, 180.0)).w() - Eigen::Vector3d::UnitY()).norm(), 1e-12);
}

TEST(Chart, TakesEastForAHorizontalPlane) {
    const Chart chart = chart_of({Eigen::Vector3d::Zero(), -Eigen::Vector3d::UnitZ()});
    EXPECT_EQ(chart.u(), Eigen::Vector3d::UnitX());
    EXPECT_EQ(chart.v(), Eigen::Vector3d::UnitY());
    EXPECT_EQ(chart.w(), Eigen::Vector3d::UnitZ());
}

TEST(Chart, GoesThereAndBack) {
    const Chart chart = chart_of(dipping(72.0, 310.0));
    const Eigen::Vector3d point(400.0, -35.0, 1200.0);
    EXPECT_LT((chart.world_from_chart(chart.chart_from_world(point)) - point).norm(), 1e-10);
    EXPECT_LT(
        (chart.chart_from_world_rotation * chart.chart_from_world_rotation.transpose() - Eigen::Matrix3d::Identity()).norm(),
        1e-12);
    EXPECT_GT(chart.chart_from_world_rotation.determinant(), 0.0);
    EXPECT_NEAR(chart.chart_from_world(point).z(), base::signed_distance(dipping(72.0, 310.0), point), 1e-10);
}

TEST(Chart, TurnsTheEffectsOfSourcesIntoItsAxes) {
    const Chart chart = chart_of(dipping(60.0, 90.0));
    paths::SourceEffect effect;
    effect.source.sd = 0.3;
    effect.displacement = {0.0, 2.0, 0.0};
    effect.rotation = chart.w();
    const std::vector<ChartEffect> turned = chart_effects(chart, {effect});
    ASSERT_EQ(turned.size(), 1U);
    EXPECT_EQ(turned[0].source.sd, 0.3);
    EXPECT_LT((turned[0].displacement - Eigen::Vector3d(2.0, 0.0, 0.0)).norm(), 1e-12);
    EXPECT_LT((turned[0].rotation - Eigen::Vector3d::UnitZ()).norm(), 1e-12);
}

}  // namespace
}  // namespace selvage::veins
