#include "base/parallel.h"
#include "base/random.h"
#include "mesh/search.h"
#include "mesh/solid_check.h"
#include "veins/faulted_scene.h"
#include "veins/solid.h"

#include <gtest/gtest.h>

#include <cmath>
#include <string>
#include <vector>

namespace selvage::veins {
namespace {

constexpr std::size_t worlds = 200;

// A waved vein of random attitude, cut and moved by a random fault; holes on both sides, some close to it.
FaultedScene random_world(std::size_t number) {
    base::RandomStream stream("faulted solids", {number});
    const auto between = [&](double low, double high) { return low + (high - low) * stream.uniform(); };
    FaultedScene world({between(-25.0, 25.0), between(-25.0, 25.0), between(-25.0, 25.0)}, between(40.0, 110.0),
                       between(-0.8, 0.8));
    const double wave = between(0.0, 3.0), phase = between(0.0, 6.0), thick = between(0.02, 2.5);
    world.scene.height = [wave, phase](const Eigen::Vector2d& x) { return wave * std::sin(x.x() / 50.0 + x.y() / 80.0 + phase); };
    world.scene.thickness = [thick](const Eigen::Vector2d& x) { return thick * std::exp(0.3 * std::sin(x.x() / 60.0)); };
    int hole = 0;
    for (double u = -60.0; u < 240.0; u += 50.0)
        for (double v = -40.0; v < 100.0; v += 45.0) {
            ++hole;
            world.hit("H-" + std::to_string(hole), {u + between(-12.0, 12.0), v + between(-12.0, 12.0)}, between(60.0, 85.0),
                      between(0.0, 360.0));
        }
    return world;
}

std::string wrong_with(std::size_t number) {
    const FaultedScene world = random_world(number);
    Scene scene = world.scene;
    const std::vector<Vein> veins = scene.model();
    if (veins.empty()) return "no vein";
    const base::Checked<std::vector<VeinSolid>> made = vein_solids(veins, scene.settings.events, scene.site());
    if (!made.findings.empty()) return made.findings.front().message;
    std::vector<mesh::MeshSearch> searches;
    for (const VeinSolid& solid : made.value) {
        if (!mesh::check_solid(solid.mesh).sound()) return "a body that is " + mesh::words_of(mesh::check_solid(solid.mesh));
        const double side = solid.block == "Cross Fault+" ? 1.0 : -1.0;
        for (const Eigen::Vector3d& point : solid.mesh.points)
            if (side * base::signed_distance(world.fault.plane, point) < -1e-6) return "a point beyond the fault";
        searches.emplace_back(solid.mesh);
    }
    for (const intercepts::Intercept& met : scene.intercepts.met)
        for (const double depth : {met.from, met.to}) {
            const Eigen::Vector3d contact =
                paths::position_at(scene.paths[static_cast<std::size_t>(&met - scene.intercepts.met.data())], depth);
            const std::string block = veins[0].blocks().name(veins[0].blocks().at(met.point));
            // A contact beyond the fault from its own middle, or above the ground, is cut off with what lies there.
            if (veins[0].blocks().name(veins[0].blocks().at(contact)) != block) continue;
            if (scene.site().ground.height_of(contact).value_or(-1.0) > 0.0) continue;
            for (std::size_t s = 0; s < searches.size(); ++s)
                if (made.value[s].block == block && searches[s].nearest(contact).distance > 1e-6)
                    return "contact of " + met.hole + " " + std::to_string(searches[s].nearest(contact).distance) + " m off";
        }
    return {};
}

// Each body valid, each contact on it within a micrometre, each in its own block.
TEST(FaultedSolids, TwoHundredWorldsAreSound) {
    std::vector<std::string> wrong(worlds);
    base::parallel_for(worlds, [&](std::size_t i) { wrong[i] = wrong_with(i); });
    for (std::size_t i = 0; i < worlds; ++i) EXPECT_EQ(wrong[i], "") << "world " << i;
}

}  // namespace
}  // namespace selvage::veins
