#include "veins/crossing.h"

#include "base/random.h"
#include "vein_scene.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <vector>

namespace selvage::veins {
namespace {

// The first depth, of each of 4,000 draws, at which the true path lies under the true surface. A draw of the surface along the
// path is a height from the fitted mixture: a node by weight, then its normal value, kept for the whole path (the surface moves
// as one over the few metres that matter); a draw of the path moves every depth by the same draws of its sources.
std::vector<double> simulated(const Vein& vein, const paths::Path& path, const Crossing& curve) {
    base::RandomStream stream("curve against draws", {4000});
    const double low = curve.depth.front(), high = curve.depth.back();
    constexpr int steps = 400;
    std::vector<Eigen::Vector3d> normals;
    std::vector<std::vector<paths::SourceEffect>> effects;
    std::vector<numerics::NormalMixture> heights;  // over the path's recorded point
    for (int i = 0; i <= steps; ++i) {
        const double depth = low + (high - low) * i / steps;
        effects.push_back(paths::effects_at(path, depth));
        heights.push_back(vein.at(paths::position_at(path, depth)).height);
        normals.push_back(vein.normals_at({paths::position_at(path, depth)}).front().normal);
    }
    const Eigen::Vector3d normal = vein.mean_plane().normal;
    std::vector<double> depths;
    for (int draw = 0; draw < 4000; ++draw) {
        double choice = stream.uniform();
        std::size_t node = 0;
        while (node + 1 < heights[0].weights.size() && choice > heights[0].weights[node]) choice -= heights[0].weights[node++];
        const double z = stream.normal();
        std::vector<double> errors;
        for (std::size_t j = 0; j < effects[0].size(); ++j) errors.push_back(stream.normal());
        double came = high;
        for (int i = 0; i <= steps; ++i) {
            const auto k = static_cast<std::size_t>(i);
            Eigen::Vector3d moved = Eigen::Vector3d::Zero();
            for (std::size_t j = 0; j < effects[k].size(); ++j)
                moved += effects[k][j].displacement * effects[k][j].source.sd * errors[j];
            // The surface at the moved place, by its slope.
            const double across = normals[k].dot(moved) / normals[k].dot(normal);
            if (heights[k].means[node] + heights[k].sds[node] * z - across > 0.0) {
                came = low + (high - low) * i / steps;
                break;
            }
        }
        depths.push_back(came);
    }
    std::sort(depths.begin(), depths.end());
    return depths;
}

class CurveAtAnAngle : public testing::TestWithParam<double> {};

TEST_P(CurveAtAnAngle, AgreesWithFourThousandDraws) {
    Scene scene;
    scene.lattice(3, 3);
    const auto veins = scene.model();
    paths::Path& path = scene.hole("P-1", {70.0, 130.0}, GetParam(), 20.0);
    const auto crossings = veins[0].crossings(path);
    ASSERT_EQ(crossings.size(), 1u);
    const Crossing& curve = crossings[0];
    EXPECT_GE(curve.depth.size(), 60u);
    EXPECT_TRUE(std::is_sorted(curve.cumulative.begin(), curve.cumulative.end()));
    EXPECT_GT(curve.chance, 0.98);
    const auto drawn = simulated(veins[0], path, curve);
    const double width = curve.depth_at(0.9) - curve.depth_at(0.1);
    // Published for this form: .02-.05 of the width at 12 degrees, .01-.03 above; 4,000 draws add .02 of their own.
    EXPECT_NEAR(curve.depth_at(0.1), drawn[400], 0.08 * width);
    EXPECT_NEAR(curve.depth_at(0.5), drawn[2000], 0.08 * width);
    EXPECT_NEAR(curve.depth_at(0.9), drawn[3600], 0.08 * width);
}

INSTANTIATE_TEST_SUITE_P(Angles, CurveAtAnAngle, testing::Values(12.0, 25.0, 50.0));

TEST(Crossing, HoldsTheTruthOfAHoleNearItsNeighbours) {
    Scene scene;
    scene.lattice(3, 4);
    const auto veins = scene.model();
    const paths::Path path = scene.hole("P-1", {60.0, 80.0}, 50.0, 200.0);
    const Crossing curve = veins[0].crossings(path).at(0);
    EXPECT_LT(curve.depth_at(0.02), Scene::before_vein);
    EXPECT_GT(curve.depth_at(0.98), Scene::before_vein);
    EXPECT_TRUE(curve.within_extent);
    EXPECT_EQ(curve.beyond_extent_sd, 0.0);
    EXPECT_EQ(curve.cumulative_at(-10.0), 0.0);
    EXPECT_NEAR(curve.cumulative_at(curve.depth_at(0.3)), 0.3 * curve.chance, 1e-9);
}

TEST(Crossing, IsTheSameFromTheFootWallSide) {
    Scene scene;
    scene.height = [](const Eigen::Vector2d&) { return 0.0; };
    scene.lattice(3, 3);
    const auto veins = scene.model();
    const paths::Path above = scene.hole("P-1", {60.0, 60.0}, 50.0, 20.0);
    const paths::Path below = scene.hole("P-2", {60.0, 60.0}, 50.0, 200.0, 60.0, true);  // the same line, turned about
    const Crossing down = veins[0].crossings(above).at(0), up = veins[0].crossings(below).at(0);
    EXPECT_NEAR(down.depth_at(0.5) + up.depth_at(0.5), 2.0 * Scene::before_vein, 0.1);
    EXPECT_NEAR(down.depth_at(0.9) - down.depth_at(0.1), up.depth_at(0.9) - up.depth_at(0.1), 0.3);
}

TEST(Crossing, OfAHoleThatStopsShortIsProlonged) {
    Scene scene;
    scene.lattice(3, 3);
    const auto veins = scene.model();
    const paths::Path path = scene.hole("P-1", {60.0, 60.0}, 50.0, 20.0, -100.0);  // ends 100 m before the vein
    const Crossing curve = veins[0].crossings(path).at(0);
    EXPECT_NEAR(curve.depth_at(0.5), Scene::before_vein, 5.0);
    EXPECT_LT(curve.cumulative_at(path.end_depth), 1e-6);
}

TEST(Crossing, OfAHoleThatRunsAwayIsNone) {
    Scene scene;
    scene.lattice(3, 3);
    const auto veins = scene.model();
    const Eigen::Vector3d off = scene.chart.world_from_chart({60.0, 60.0, 80.0});
    const auto away = test::straight_path("A", 90, off, base::direction_of(scene.chart.w()), 200.0);
    EXPECT_TRUE(veins[0].crossings(away).empty());
    // One that runs along the vein may come to it somewhere, far off, or not.
    const auto along = test::straight_path("B", 91, off, base::direction_of(scene.chart.u()), 200.0);
    for (const Crossing& curve : veins[0].crossings(along)) {
        EXPECT_FALSE(curve.within_extent);
        EXPECT_LT(curve.cumulative_at(200.0), 0.01);
    }
}

TEST(Crossing, BeyondTheExtentSaysHowFarInSds) {
    Scene scene;
    scene.lattice(3, 3);
    const auto veins = scene.model();
    const paths::Path path = scene.hole("P-1", {350.0, 60.0}, 60.0, 20.0);
    const Crossing curve = veins[0].crossings(path).at(0);
    EXPECT_FALSE(curve.within_extent);
    EXPECT_GT(curve.beyond_extent_sd, 2.0);
}

}  // namespace
}  // namespace selvage::veins
