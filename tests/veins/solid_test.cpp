#include "veins/solid.h"

#include "mesh/search.h"
#include "mesh/solid_check.h"
#include "veins/faulted_scene.h"
#include "veins/model.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

namespace selvage::veins {
namespace {

std::vector<VeinSolid> solids_of(Scene& scene, const std::vector<Vein>& veins, std::vector<base::Finding>* findings = nullptr) {
    base::Checked<std::vector<VeinSolid>> made = vein_solids(veins, scene.settings.events, scene.site());
    if (findings != nullptr) *findings = made.findings;
    return std::move(made.value);
}

double volume_of(const std::vector<VeinSolid>& solids) {
    double sum = 0.0;
    for (const VeinSolid& solid : solids) sum += solid.volume;
    return sum;
}

TEST(VeinSolids, PassThroughEveryContact) {
    Scene scene;
    scene.lattice(4, 3);
    scene.hit("D-01", {52.0, 55.0}, 60.0, 30.0);  // a daughter's place, some metres from its parent's
    const std::vector<Vein> veins = scene.model();
    const std::vector<VeinSolid> solids = solids_of(scene, veins);
    ASSERT_EQ(solids.size(), 1u);
    EXPECT_EQ(solids[0].block, "");
    EXPECT_TRUE(mesh::check_solid(solids[0].mesh).sound());
    const mesh::MeshSearch search(solids[0].mesh);
    for (const intercepts::Intercept& met : scene.intercepts.met) {
        const paths::Path* path = nullptr;
        for (const paths::Path& one : scene.paths)
            if (one.hole == met.hole) path = &one;
        for (const double depth : {met.from, met.to})
            EXPECT_LT(search.nearest(paths::position_at(*path, depth)).distance, 1e-6) << met.hole;
        EXPECT_EQ(search.where(met.point), mesh::Where::inside) << met.hole;
    }
    const std::size_t count = solids[0].mesh.points.size();
    EXPECT_EQ(solids[0].figures.sd.size(), count);
    EXPECT_GT(*std::min_element(solids[0].figures.thickness.begin(), solids[0].figures.thickness.end()), 0.0);
    for (const double presence : solids[0].figures.presence) EXPECT_TRUE(presence > 0.4 && presence <= 1.0) << presence;
}

// The body's volume against the integral of the drawn thickness over the ground of the model, on a finer grid of its own.
TEST(VeinSolids, HoldWhatTheThicknessAddsUpTo) {
    Scene scene;
    scene.lattice(4, 3);
    scene.given_site = site::Site();  // nothing cuts it
    const std::vector<Vein> veins = scene.model();
    const std::vector<VeinSolid> solids = solids_of(scene, veins);
    ASSERT_EQ(solids.size(), 1u);
    const Vein::Model& model = veins[0].model();
    const Extent& extent = model.parts[0].extent;
    double integral = 0.0;
    const double step = 1.0;
    for (double u = -250.0; u < 450.0; u += step)
        for (double v = -250.0; v < 400.0; v += step)
            if (margin_at(extent, {u, v}).inside >= 0.0)
                integral += step * step * drawn_at(model, model.parts[0], {u, v}).thickness;
    ASSERT_GT(integral, 1000.0);
    EXPECT_NEAR(solids[0].volume, integral, 0.005 * integral);
}

// What a fault parts in place adds up to the whole, but for the strip that the extent leaves where only one side was drilled.
TEST(VeinSolids, PartsOfAFaultThatDidNotMoveAddUpToTheWhole) {
    FaultedScene parted({0.0, 0.0, 0.0});
    parted.lattice();
    Scene whole = parted.scene;
    whole.settings.events = {};
    const std::vector<Vein> parted_veins = parted.scene.model(), whole_veins = whole.model();
    const std::vector<VeinSolid> parts = solids_of(parted.scene, parted_veins), one = solids_of(whole, whole_veins);
    ASSERT_EQ(parts.size(), 2u);
    ASSERT_EQ(one.size(), 1u);
    const mesh::MeshSearch search(one[0].mesh);
    for (const VeinSolid& part : parts) {
        EXPECT_TRUE(mesh::check_solid(part.mesh).sound());
        const double side = part.block == "Cross Fault+" ? 1.0 : -1.0;
        for (const Eigen::Vector3d& point : part.mesh.points)
            EXPECT_GT(side * base::signed_distance(parted.fault.plane, point), -1e-6);
    }
    EXPECT_NEAR(volume_of(parts), one[0].volume, 0.02 * one[0].volume);
}

// A younger vein takes its room from an older one that it crosses.
TEST(VeinSolids, AYoungerVeinCutsAnOlderOne) {
    Scene scene;
    scene.lattice(4, 3);
    Scene other(65.0, 150.0);  // strikes across
    other.chart.centre = scene.chart.world_from_chart({75.0, 50.0, 0.0});
    other.lattice(3, 3);
    for (intercepts::Intercept& met : other.intercepts.met) {
        met.hole += " S";
        met.vein = "South";
    }
    for (paths::Path& path : other.paths) {
        path.hole += " S";
        path.number += 100;
        scene.paths.push_back(path);
    }
    for (tables::Collar collar : other.records.collars) {
        collar.hole += " S";
        scene.records.collars.push_back(collar);
    }
    std::copy(other.intercepts.met.begin(), other.intercepts.met.end(), std::back_inserter(scene.intercepts.met));
    scene.settings.veins.push_back({});
    scene.settings.veins.back().name = "South";
    const auto apart = solids_of(scene, scene.model());
    scene.settings.events.order = {"North", "South"};
    const auto cut = solids_of(scene, scene.model());
    ASSERT_EQ(apart.size(), 2u);
    ASSERT_EQ(cut.size(), 2u);
    EXPECT_NEAR(cut[1].volume, apart[1].volume, 1e-6) << "the younger one is whole";
    EXPECT_LT(cut[0].volume, apart[0].volume - 1.0);
    EXPECT_TRUE(mesh::check_solid(cut[0].mesh).sound());
    const mesh::MeshSearch younger(cut[1].mesh);
    for (const Eigen::Vector3d& point : cut[0].mesh.points) EXPECT_GT(younger.signed_distance(point), -1e-6);
}

TEST(VeinSolids, EndAtTheGround) {
    Scene scene;
    scene.lattice(4, 3);
    scene.given_site = site::Site();
    scene.given_site->ground =
        site::Ground(base::Plane{scene.chart.world_from_chart({0.0, 60.0, 0.0}), Eigen::Vector3d(0.1, 0.0, 1.0).normalized()});
    const auto solids = solids_of(scene, scene.model());
    ASSERT_EQ(solids.size(), 1u);
    double highest = -1e9;
    for (const Eigen::Vector3d& point : solids[0].mesh.points)
        highest = std::max(highest, *scene.given_site->ground.height_of(point));
    EXPECT_NEAR(highest, 0.0, 1e-6);
    EXPECT_TRUE(mesh::check_solid(solids[0].mesh).sound());
}

TEST(VeinSolids, AreTheSameEachTime) {
    Scene scene;
    scene.lattice(3, 3);
    const std::vector<Vein> veins = scene.model();
    const auto first = solids_of(scene, veins), second = solids_of(scene, veins);
    ASSERT_EQ(first.size(), second.size());
    EXPECT_EQ(first[0].mesh.points, second[0].mesh.points);
    EXPECT_EQ(first[0].mesh.triangles, second[0].mesh.triangles);
}

}  // namespace
}  // namespace selvage::veins
