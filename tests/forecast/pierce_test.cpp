#include "forecast/pierce.h"

#include "veins/pierce_covariance.h"
#include "veins/vein_scene.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

namespace selvage::forecast {
namespace {

struct Project {
    veins::Scene scene;
    Project() { scene.lattice(3, 3); }
    std::vector<Pierce> forecast() {
        all = scene.model();
        auto checked = forecast_pierces(scene.paths, all, scene.intercepts, scene.settings.plan);
        findings = std::move(checked.findings);
        no_crossings = std::move(checked.value.no_crossings);
        return std::move(checked.value.pierces);
    }
    paths::Path& planned(const std::string& name, const Eigen::Vector2d& place, double angle, double beyond = 60.0) {
        paths::Path& path = scene.hole(name, place, angle, 20.0, beyond);
        path.status = tables::HoleStatus::planned;
        path.drilled_depth = 0.0;
        return path;
    }
    std::vector<veins::Vein> all;
    std::vector<base::Finding> findings;
    std::vector<NoCrossing> no_crossings;
};

bool has(const Pierce& pierce, const std::string& flag) {
    return std::find(pierce.flags.begin(), pierce.flags.end(), flag) != pierce.flags.end();
}

TEST(ForecastPierces, APlannedHoleHasItsRow) {
    Project project;
    project.planned("P-1", {70.0, 60.0}, 50.0);
    const auto rows = project.forecast();
    ASSERT_EQ(rows.size(), 1u);
    const Pierce& row = rows[0];
    EXPECT_EQ(row.hole, "P-1");
    EXPECT_EQ(row.vein, "North");
    EXPECT_NEAR(row.depth, veins::Scene::before_vein, 5.0);
    EXPECT_LT(row.call_depth, row.depth_p10);
    EXPECT_LT(row.depth_p10, row.depth);
    EXPECT_LT(row.depth, row.depth_p90);
    EXPECT_NEAR(row.stop_depth, row.crossing.depth_at(0.99) + 15.0, 1e-9);
    EXPECT_NEAR(row.angle.degrees(), 50.0, 6.0);
    EXPECT_GT(row.chance_reached, 0.999);
    EXPECT_GT(row.presence, 0.8);
    EXPECT_FALSE(row.log_thickness.empty());
    EXPECT_TRUE(row.flags.empty());
    EXPECT_TRUE(project.findings.empty());
}

TEST(ForecastPierces, AHoleTooShortSaysSo) {
    Project project;
    project.planned("P-1", {70.0, 60.0}, 50.0, -20.0);
    const auto rows = project.forecast();
    ASSERT_EQ(rows.size(), 1u);
    EXPECT_LT(rows[0].chance_reached, 0.01);
    EXPECT_NEAR(rows[0].depth, veins::Scene::before_vein, 5.0);
}

TEST(ForecastPierces, FarFromTheExtentTheNearestVeinHasARow) {
    Project project;
    project.planned("P-1", {420.0, 60.0}, 60.0);
    const auto rows = project.forecast();
    ASSERT_EQ(rows.size(), 1u);
    EXPECT_TRUE(has(rows[0], "nearest-vein"));
    EXPECT_TRUE(has(rows[0], "beyond-extent"));
}

TEST(ForecastPierces, AlongTheVeinIsFlagged) {
    Project project;
    project.planned("P-1", {70.0, 60.0}, 11.0);
    const auto rows = project.forecast();
    ASSERT_EQ(rows.size(), 1u);
    EXPECT_TRUE(has(rows[0], "along-vein"));
}

TEST(ForecastPierces, CancelledAndDrilledHolesHaveNone) {
    Project project;
    project.planned("P-1", {70.0, 60.0}, 50.0).status = tables::HoleStatus::cancelled;
    EXPECT_TRUE(project.forecast().empty());
}

TEST(ForecastPierces, AnActiveHoleThatMetTheVeinHasNone) {
    Project project;
    project.scene.hit("K-1", {70.0, 60.0}, 60.0, 40.0);
    project.scene.paths.back().status = tables::HoleStatus::active;
    EXPECT_TRUE(project.forecast().empty());
    EXPECT_TRUE(project.findings.empty());
    project.scene.intercepts.met.pop_back();
    EXPECT_EQ(project.forecast().size(), 1u);
}

TEST(ForecastPierces, AHoleThatRunsAwayIsReported) {
    Project project;
    const Eigen::Vector3d off = project.scene.chart.world_from_chart({60.0, 60.0, 80.0});
    auto path = test::straight_path("A", 90, off, base::direction_of(project.scene.chart.w()), 200.0);
    path.status = tables::HoleStatus::planned;
    project.scene.paths.push_back(path);
    EXPECT_TRUE(project.forecast().empty());
    EXPECT_EQ(veins::count_of(project.findings, "no-crossing-ahead"), 1u);
    ASSERT_EQ(project.no_crossings.size(), 1u);
    EXPECT_EQ(project.no_crossings[0].hole, "A");
    EXPECT_EQ(project.no_crossings[0].vein, "North");
}

TEST(ForecastPierces, RowsComeInCollarOrder) {
    Project project;
    project.planned("P-2", {70.0, 60.0}, 50.0);
    project.planned("P-1", {20.0, 60.0}, 50.0);
    const auto rows = project.forecast();
    ASSERT_EQ(rows.size(), 2u);
    EXPECT_EQ(rows[0].hole, "P-2");
    EXPECT_EQ(rows[1].hole, "P-1");
}

// A hole square to a plane vein: its sideways errors stay as they are, along the hole there is the vein's error alone.
TEST(PierceCovariance, OfASquareHoleHasThePathsErrorAcrossAndTheVeinsAlong) {
    veins::Scene scene;
    const paths::Path path = scene.hole("P", {0.0, 0.0}, 90.0, 0.0);
    const Eigen::Vector3d w = scene.chart.w();
    const Eigen::Matrix3d errors = paths::covariance_at(path, 150.0);
    const double along = w.dot(errors * w), vein = 2.0;
    const Eigen::Matrix3d pierce = veins::pierce_covariance(path, 150.0, w, std::sqrt(along + vein * vein));
    EXPECT_NEAR(w.dot(pierce * w), vein * vein, 1e-9);
    const Eigen::Vector3d u = scene.chart.u();
    EXPECT_NEAR(u.dot(pierce * u), u.dot(errors * u), 1e-9);
    EXPECT_NEAR(u.dot(pierce * w), 0.0, 1e-9);
}

// At an angle a the same error of a surface that is exactly known leaves the pierce point on the surface.
TEST(PierceCovariance, OnAVeinWithoutErrorLiesInItsPlane) {
    veins::Scene scene;
    const paths::Path path = scene.hole("P", {0.0, 0.0}, 30.0, 50.0);
    const Eigen::Vector3d w = scene.chart.w();
    const double sine = w.dot(paths::direction_at(path, 150.0));
    const double by_path = std::sqrt(w.dot(paths::covariance_at(path, 150.0) * w)) / std::abs(sine);
    const Eigen::Matrix3d pierce = veins::pierce_covariance(path, 150.0, w, by_path);
    EXPECT_NEAR(w.dot(pierce * w), 0.0, 1e-12);
    EXPECT_GT(pierce.trace(), 0.0);
}

}  // namespace
}  // namespace selvage::forecast
