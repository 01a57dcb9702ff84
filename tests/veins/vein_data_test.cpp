#include "veins/vein_data.h"

#include "vein_scene.h"

#include <gtest/gtest.h>

#include <cmath>

namespace selvage::veins {
namespace {

const base::Angle no_tilt;

struct OneHole {
    Scene scene;
    OneHole() {
        scene.height = [](const Eigen::Vector2d&) { return 0.0; };
        scene.thickness = [](const Eigen::Vector2d&) { return 1.0; };
        scene.hit("A", {0.0, 0.0}, 30.0, 40.0);
    }
    intercepts::Intercept& met() { return scene.intercepts.met[0]; }
    std::vector<Evidence> evidence() const {
        return evidence_of(scene.settings.veins[0], scene.intercepts, scene.paths, scene.records);
    }
    SurfaceDatum datum() const { return surface_datum(evidence().at(0), scene.chart, no_tilt); }
    // Sd along the hole that the datum's own height was given, at 30 degrees to the plane.
    double along_hole_sd() const { return std::sqrt(datum().scaled_variance) / 0.5; }
};

TEST(VeinData, APickHasFifteenCentimetresAlongTheHole) {
    const OneHole one;
    EXPECT_NEAR(one.along_hole_sd(), 0.15, 1e-9);
    EXPECT_NEAR(one.datum().fixed_variance, 0.15 * 0.15, 1e-12);
    EXPECT_NEAR(*one.datum().height, 0.0, 1e-6);
    EXPECT_EQ(one.datum().effects.size(), one.scene.paths[0].sources.size());
}

TEST(VeinData, StatedErrorsOfBothContactsTakeItsPlace) {
    OneHole one;
    one.met().from_sd = 0.3;
    one.met().to_sd = 0.4;
    EXPECT_NEAR(one.along_hole_sd(), 0.25, 1e-9);
}

TEST(VeinData, LostCoreAddsAUniformPlace) {
    OneHole one;
    one.met().lost_length = 1.2;
    EXPECT_NEAR(one.along_hole_sd(), 0.15 + 1.2 / std::sqrt(12.0), 1e-9);
    one.met().state = tables::PickState::lost;
    one.met().lost_length = 0.0;
    EXPECT_NEAR(one.along_hole_sd(), 0.15 + one.met().length() / std::sqrt(12.0), 1e-9);
}

TEST(VeinData, AVoidIsKnownToHalfAMetreAtBest) {
    OneHole one;
    one.met().state = tables::PickState::open_void;
    EXPECT_NEAR(one.along_hole_sd(), std::max(0.5, one.met().length() / std::sqrt(12.0)), 1e-9);
    EXPECT_FALSE(thickness_datum(one.evidence()[0], one.scene.chart, {0.0, 0.0}, {0.1, 0.1}));
    EXPECT_TRUE(one.evidence()[0].present);
}

TEST(VeinData, ALikelyPickHasTwoMetresMore) {
    OneHole one;
    one.met().certainty = 2;
    EXPECT_NEAR(one.datum().fixed_variance, 0.15 * 0.15 + 4.0, 1e-12);
    one.met().certainty = 3;
    EXPECT_TRUE(one.evidence().empty());
}

TEST(VeinData, AStructureIsAPlaceWithoutTheVein) {
    OneHole one;
    one.met().state = tables::PickState::structure;
    EXPECT_FALSE(one.evidence()[0].present);
    EXPECT_TRUE(one.datum().height);
    EXPECT_FALSE(thickness_datum(one.evidence()[0], one.scene.chart, {0.0, 0.0}, {0.1, 0.1}));
}

// A metre along w is 2 m of core at 30 degrees.
TEST(VeinData, ThicknessIsAlongTheNormalAndAsSureAsTheSlope) {
    OneHole one;
    const auto datum = thickness_datum(one.evidence()[0], one.scene.chart, {0.0, 0.0}, {0.1, 0.1});
    ASSERT_TRUE(datum);
    EXPECT_NEAR(datum->log_value, 0.0, 1e-6);
    EXPECT_NEAR(datum->own_variance, std::pow(0.1 * 2.0 * std::cos(std::acos(-1.0) / 6.0), 2), 1e-6);
    one.met().lost_length = 0.5;  // half of it may be vein
    const auto lost = thickness_datum(one.evidence()[0], one.scene.chart, {0.0, 0.0}, {0.0, 0.0});
    EXPECT_NEAR(std::exp(lost->log_value), 1.0 - 0.125, 1e-6);
    EXPECT_NEAR(std::sqrt(lost->own_variance), 0.5 / std::sqrt(12.0) * 0.5 / 0.875, 1e-6);
}

TEST(VeinData, OutcropsAndTrenchesHaveTheirOwnErrors) {
    Scene scene;
    tables::Outcrop outcrop;
    outcrop.vein = "North";
    outcrop.position = scene.chart.centre;
    outcrop.attitude = base::attitude_of_normal(scene.chart.w());
    scene.records.outcrops = {outcrop, outcrop};
    scene.records.outcrops[1].trench = true;
    scene.records.outcrops.push_back(outcrop);
    scene.records.outcrops.back().vein = "South";
    const auto evidence = evidence_of(scene.settings.veins[0], scene.intercepts, scene.paths, scene.records);
    ASSERT_EQ(evidence.size(), 2u);
    const Eigen::Vector3d w = scene.chart.w();
    const SurfaceDatum grassy = surface_datum(evidence[0], scene.chart, no_tilt),
                       dug = surface_datum(evidence[1], scene.chart, no_tilt);
    EXPECT_NEAR(grassy.fixed_variance, 0.0225 + 9.0 * (w.x() * w.x() + w.y() * w.y()) + 25.0 * w.z() * w.z(), 1e-9);
    EXPECT_NEAR(dug.fixed_variance, 0.0225 + 0.25, 1e-9);
    EXPECT_NEAR(std::sqrt(grassy.gradient_extra_variance), 5.0 * std::acos(-1.0) / 180.0, 1e-9);
    EXPECT_TRUE(grassy.gradient_core_noise);
}

TEST(VeinData, AStatedPlaneIsOneHeightAndOneAttitude) {
    Scene scene;
    scene.settings.veins[0].point = scene.chart.centre + Eigen::Vector3d(1000.0, 2000.0, 0.0);
    scene.records.frame.origin = Eigen::Vector3d(1000.0, 2000.0, 0.0);
    scene.settings.veins[0].dip = base::Angle::degrees(70);
    scene.settings.veins[0].dip_direction = base::Azimuth::degrees(60);
    const auto evidence = evidence_of(scene.settings.veins[0], scene.intercepts, scene.paths, scene.records);
    ASSERT_EQ(evidence.size(), 1u);
    const SurfaceDatum datum = surface_datum(evidence[0], scene.chart, no_tilt);
    const double ten = 10.0 * std::acos(-1.0) / 180.0;
    EXPECT_NEAR(*datum.height, 0.0, 1e-9);
    EXPECT_NEAR(datum.fixed_variance, 25.0225, 1e-9);
    EXPECT_NEAR(std::sqrt(datum.gradient_stated_variance.y()), ten, 1e-9);
    EXPECT_NEAR(std::sqrt(datum.gradient_stated_variance.x()), ten * std::sin(7.0 * ten), 1e-9);
    EXPECT_FALSE(datum.gradient_core_noise);
    EXPECT_FALSE(evidence[0].present);
}

// The low side of a hole at 85 degrees, tool tilt 0.3 degrees: beta is off by 0.3 / cos 85 = 3.4 degrees, and a normal by
// that times the sine of its angle to the core.
TEST(VeinData, ASteepHoleKnowsItsNormalsLess) {
    OneHole one;
    const base::Direction steep{base::Azimuth::degrees(0), base::Dip::degrees(85)};
    one.met().hole_direction = base::unit_vector(steep);
    one.met().poles = 1;
    const base::Angle tilt = base::Angle::degrees(0.3);
    const SurfaceDatum datum = surface_datum(one.evidence()[0], one.scene.chart, tilt);
    const double sine = one.met().hole_direction.cross(one.scene.chart.w()).norm();
    const double expected = tilt.radians() / std::cos(85.0 * std::acos(-1.0) / 180.0) * sine;
    EXPECT_NEAR(std::sqrt(datum.gradient_stated_variance.sum()), expected, 1e-6);
}

}  // namespace
}  // namespace selvage::veins
