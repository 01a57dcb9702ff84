#include "faults/fault_plane.h"

#include "base/angle.h"
#include "base/random.h"

#include <gtest/gtest.h>
#include <Eigen/Geometry>

#include <cmath>

namespace selvage::faults {
namespace {

const Eigen::Vector3d normal = Eigen::Vector3d(0.5, -0.4, 0.7).normalized();

Eigen::Vector3d place(double a, double b) {
    const Eigen::Vector3d first = normal.unitOrthogonal();
    return Eigen::Vector3d(10, 20, -100) + a * first + b * normal.cross(first);
}

std::vector<PlaneDatum> four_places() {
    const Eigen::Matrix3d exact = Eigen::Matrix3d::Zero();
    return {{place(0, 0), exact}, {place(80, 10), exact}, {place(-20, 90), exact}, {place(50, 60), exact}};
}

TEST(FaultPlane, GoesThroughPlacesOfAPlane) {
    const auto fit = fit_fault_plane(four_places(), {});
    ASSERT_TRUE(fit);
    EXPECT_NEAR(std::abs(fit->plane.normal.dot(normal)), 1.0, 1e-12);
    EXPECT_GT(fit->plane.normal.z(), 0.0);
    for (const PlaneDatum& datum : four_places()) EXPECT_NEAR(base::signed_distance(fit->plane, datum.point), 0.0, 1e-9);
}

// One of nine 40 m off: by least squares it would carry the plane 4.4 m away.
TEST(FaultPlane, OneWrongPlaceDoesNotCarryItAway) {
    std::vector<PlaneDatum> places;
    for (int i = 0; i < 9; ++i)
        places.push_back({{i == 4 ? 40.0 : 0.0, 50.0 * (i % 3), 50.0 * (i / 3)}, 0.25 * Eigen::Matrix3d::Identity()});
    const auto fit = fit_fault_plane(places, {});
    ASSERT_TRUE(fit);
    EXPECT_LT(std::abs(base::signed_distance(fit->plane, {0.0, 50.0, 50.0})), 0.6);
}

TEST(FaultPlane, OnePlaceAndAPoleAreTakenAsTheyAre) {
    const auto fit = fit_fault_plane({{place(0, 0), Eigen::Matrix3d::Identity()}}, {{-normal, 0.1}});
    ASSERT_TRUE(fit);
    EXPECT_LT((fit->plane.point - place(0, 0)).norm(), 1e-9);
    EXPECT_LT((fit->plane.normal - normal).norm(), 1e-12);
}

TEST(FaultPlane, AnAttitudeWithoutErrorIsTakenAsItIs) {
    const auto fit = fit_fault_plane({{place(0, 0), Eigen::Matrix3d::Identity()}}, {{normal, 0.0}});
    ASSERT_TRUE(fit);
    EXPECT_LT((fit->plane.normal - normal).norm(), 1e-9);
    EXPECT_TRUE(fit->covariance.allFinite());
}

TEST(FaultPlane, NothingTellsAnAttitudeFromALine) {
    const Eigen::Matrix3d exact = Eigen::Matrix3d::Zero();
    EXPECT_FALSE(fit_fault_plane({}, {{normal, 0.1}}));
    EXPECT_FALSE(fit_fault_plane({{place(0, 0), exact}, {place(50, 0), exact}}, {}));
    EXPECT_FALSE(fit_fault_plane({{place(0, 0), exact}, {place(50, 0), exact}, {place(90, 1), exact}}, {}));
}

// The said error of the plane's place away from its data, against draws of the data.
TEST(FaultPlane, ItsErrorIsWhatDrawsShow) {
    base::RandomStream stream("fault plane", {3});
    const auto clean = fit_fault_plane(four_places(), {{normal, 0.05}});
    ASSERT_TRUE(clean);
    const Eigen::Vector3d far = place(150, -80);
    const Eigen::Vector3d off = far - clean->plane.point;
    const Eigen::Vector3d row(1.0, -clean->first_axis.dot(off), -clean->second_axis.dot(off));
    const double said = std::sqrt(row.dot(clean->covariance * row));
    double squares = 0.0;
    constexpr int draws = 4000;
    for (int i = 0; i < draws; ++i) {
        std::vector<PlaneDatum> data = four_places();
        for (PlaneDatum& datum : data) datum.point += 2.0 * stream.normal() * normal;  // the waves alone
        const Eigen::Vector3d turned =
            (normal + 0.05 * (stream.normal() * clean->first_axis + stream.normal() * clean->second_axis)).normalized();
        const auto fit = fit_fault_plane(data, {{turned, 0.05}});
        squares += std::pow(base::signed_distance(fit->plane, far) / fit->plane.normal.dot(normal), 2);
    }
    EXPECT_NEAR(std::sqrt(squares / draws), said, 0.05 * said);
}

}  // namespace
}  // namespace selvage::faults
