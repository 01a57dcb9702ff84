#include "veins/solid.h"

#include "mesh/search.h"
#include "mesh/solid_check.h"
#include "veins/faulted_scene.h"
#include "veins/model.h"
#include "veins/parent_wall.h"

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

// A second vein, South, that strikes across a scene's; only those of its hits count that are `wanted`.
template <typename Wanted>
void add_crossing_vein(Scene& scene, const Wanted& wanted) {
    Scene other(65.0, 150.0);  // strikes across
    other.chart.centre = scene.chart.world_from_chart({75.0, 50.0, 0.0});
    other.lattice(3, 3);
    for (std::size_t i = 0; i < other.paths.size(); ++i) {
        intercepts::Intercept& met = other.intercepts.met[i];
        if (!wanted(met.point)) continue;
        paths::Path& path = other.paths[i];
        tables::Collar& collar = other.records.collars[i];
        for (std::string* name : {&met.hole, &path.hole, &collar.hole}) *name += " S";
        met.vein = "South";
        path.number += 100;
        scene.paths.push_back(path);
        scene.records.collars.push_back(collar);
        scene.intercepts.met.push_back(met);
    }
    scene.settings.veins.push_back({});
    scene.settings.veins.back().name = "South";
}

// A younger vein takes its room from an older one that it crosses.
TEST(VeinSolids, AYoungerVeinCutsAnOlderOne) {
    Scene scene;
    scene.lattice(4, 3);
    add_crossing_vein(scene, [](const Eigen::Vector3d&) { return true; });
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

// A splay ends where it comes to the vein that it leaves, in its outline and as a body, and is that vein's neighbour, not its
// hole.
TEST(VeinSolids, ASplayEndsAtTheWallOfTheVeinThatItLeaves) {
    Scene scene;
    scene.lattice(4, 3);
    add_crossing_vein(scene, [&](const Eigen::Vector3d& point) { return scene.chart.chart_from_world(point).z() > 12.0; });
    const auto apart = solids_of(scene, scene.model());
    scene.settings.veins.back().splay_of = "North";
    const std::vector<Vein> veins = scene.model();
    ASSERT_EQ(veins.size(), 2u);
    const auto solids = solids_of(scene, veins);
    ASSERT_EQ(solids.size(), 2u);
    EXPECT_NEAR(solids[0].volume, apart[0].volume, 1e-6);
    scene.settings.events.order = {"North", "South"};  // a younger one, and still no cut in its parent
    EXPECT_NEAR(solids_of(scene, scene.model())[0].volume, apart[0].volume, 1e-6);
    scene.settings.events.order.clear();
    EXPECT_LT(solids[1].volume, 0.8 * apart[1].volume);
    EXPECT_TRUE(mesh::check_solid(solids[1].mesh).sound());
    const ParentWall& wall = *veins[1].model().parent_wall;
    double nearest = 1e9;
    for (const Eigen::Vector3d& point : solids[1].mesh.points) {
        EXPECT_GT(wall.before(point).distance, -0.05);
        nearest = std::min(nearest, wall.before(point).distance);
    }
    EXPECT_LT(nearest, 0.05);
    int at_wall = 0;
    for (const EdgeLine& edge : veins[1].edges()) {
        if (edge.reason == EdgeReason::other_vein) ++at_wall;
        for (const Eigen::Vector3d& point : edge.points) {
            EXPECT_GT(wall.before(point).distance, -1.0);
            EXPECT_TRUE(edge.reason != EdgeReason::other_vein || std::abs(wall.before(point).distance) < 3.0);
        }
    }
    EXPECT_GT(at_wall, 0);
    for (const EdgeLine& edge : veins[0].edges()) EXPECT_NE(edge.reason, EdgeReason::other_vein);
}

// A fault that moved the parent before its splay opened: the splay's one body ends at the parent's wall on either side of it.
TEST(VeinSolids, ASplayEndsAtItsParentOnBothSidesOfAnOlderFault) {
    FaultedScene world({0.0, 0.0, 14.0});
    Scene& scene = world.scene;
    // Across the line on which the two veins meet, which runs down the dip.
    faults::Fault& fault = world.fault;
    fault.plane = {scene.chart.world_from_chart({75.0, 20.0, 0.0}),
                   scene.chart.chart_from_world_rotation.transpose() * Eigen::Vector3d(0.05, 1.0, 0.2).normalized()};
    fault.slip -= fault.plane.normal * fault.plane.normal.dot(fault.slip);
    scene.settings.events.faults = {fault};
    world.lattice();
    add_crossing_vein(scene, [&](const Eigen::Vector3d& point) { return scene.chart.chart_from_world(point).z() > 30.0; });
    scene.settings.veins.back().splay_of = "North";
    scene.settings.events.order = {"North", "Cross Fault", "South"};
    const std::vector<Vein> veins = scene.model();
    ASSERT_EQ(veins.size(), 2u);
    ASSERT_EQ(veins[0].blocks().count(), 2u);
    ASSERT_EQ(veins[1].blocks().count(), 1u);
    const auto solids = solids_of(scene, veins);
    const auto splay = std::find_if(solids.begin(), solids.end(), [](const VeinSolid& solid) { return solid.vein == "South"; });
    ASSERT_NE(splay, solids.end());
    EXPECT_TRUE(mesh::check_solid(splay->mesh).sound());
    const ParentWall& wall = *veins[1].model().parent_wall;
    int at_wall[2] = {0, 0};
    for (const Eigen::Vector3d& point : splay->mesh.points) {
        if (std::abs(base::signed_distance(world.fault.plane, point)) < 1.0) continue;
        const double before = wall.before(point).distance;
        EXPECT_GT(before, -0.1);
        if (before < 0.1) ++at_wall[base::signed_distance(world.fault.plane, point) > 0.0 ? 1 : 0];
    }
    EXPECT_GT(at_wall[0], 3);
    EXPECT_GT(at_wall[1], 3);
}

TEST(VeinSolids, ASplayMetOnBothSidesOfItsParentIsNamed) {
    Scene scene;
    scene.lattice(4, 3);
    add_crossing_vein(scene, [](const Eigen::Vector3d&) { return true; });
    scene.settings.veins.back().splay_of = "North";
    const auto count = [&] {
        const auto found = scene.model_with_findings().findings;
        return std::count_if(found.begin(), found.end(),
                             [](const base::Finding& finding) { return std::string(finding.check->id) == "splay-without-end"; });
    };
    std::ptrdiff_t over = 0, under = 0;
    for (const intercepts::Intercept& met : scene.intercepts.met) {
        if (met.vein != "South") continue;
        const Eigen::Vector3d there = scene.chart.chart_from_world(met.point);
        ++(there.z() > scene.height(there.head<2>()) ? over : under);
    }
    ASSERT_GT(std::min(over, under), 0);
    EXPECT_EQ(count(), std::min(over, under)) << "those on the side where fewer are";
    scene.settings.veins.back().splay_of = "no such vein";
    EXPECT_EQ(count(), 1);
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
