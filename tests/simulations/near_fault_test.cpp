#include "base/parallel.h"
#include "base/random.h"
#include "support/true_vein.h"
#include "veins/faulted_scene.h"

#include <gtest/gtest.h>

#include <cmath>
#include <cstdio>
#include <string>
#include <vector>

// Forecasts near a fault that the project file gives, with the errors of surveys, picks and slip drawn as they are told.
namespace selvage::veins {
namespace {

constexpr std::size_t worlds = 250;
constexpr double degree = 3.14159265358979323846 / 180.0;
constexpr double spacing = 50.0, near_fault = 40.0, slip_sd = 2.0;

struct Ranks {
    std::vector<double> of;  // chance below the truth, for each forecast
};

// The recorded path of a hole that really runs along `path`: its collar and start off by what its sources say.
paths::Path recorded(const paths::Path& path, base::RandomStream& stream) {
    const Eigen::Vector3d down = path.stations.front().tangent;
    const Eigen::Vector3d level = Eigen::Vector3d::UnitZ().cross(down).normalized();
    const Eigen::Vector3d turned = (down + 0.3 * degree * stream.normal() * Eigen::Vector3d::UnitZ().cross(down) +
                                    0.15 * degree * stream.normal() * level.cross(down))
                                       .normalized();
    const Eigen::Vector3d collar =
        path.stations.front().position + 0.3 * Eigen::Vector3d(stream.normal(), stream.normal(), stream.normal());
    paths::Path told = test::straight_path(path.hole, path.number, collar, base::direction_of(turned), path.end_depth);
    told.sources = path.sources;
    return told;
}

Ranks ranks_of(std::size_t number) {
    base::RandomStream stream("near a fault", {number});
    const auto between = [&](double low, double high) { return low + (high - low) * stream.uniform(); };
    FaultedScene world({between(-20.0, 20.0), between(-20.0, 20.0), between(-20.0, 20.0)}, 75.0, between(-0.6, 0.6));
    const auto height = made_up::drawn_surface(stream, number % 6, {75.0, 20.0}, spacing);
    world.scene.height = height;
    int hole = 0;
    for (const double u : {-55.0, -5.0, 40.0, 110.0, 155.0, 205.0})
        for (const double v : {-30.0, 25.0, 80.0}) {
            ++hole;
            world.hit("H-" + std::to_string(hole), {u + between(-10.0, 10.0), v + between(-10.0, 10.0)}, between(55.0, 85.0),
                      between(0.0, 360.0));
        }
    const std::size_t drilled = world.scene.paths.size();
    std::vector<std::string> blocks;
    for (const double side : {-1.0, 1.0}) {
        world.hit("P-" + std::to_string(blocks.size()), {75.0 + side * between(12.0, near_fault), between(-30.0, 90.0)},
                  between(60.0, 85.0), 90.0, false);
        blocks.emplace_back(side < 0.0 ? "Cross Fault-" : "Cross Fault+");
    }
    Scene told = world.scene;
    for (std::size_t i = 0; i < drilled; ++i) {
        intercepts::Intercept& met = told.intercepts.met[i];
        told.paths[i] = recorded(world.scene.paths[i], stream);
        const double off = 0.15 * stream.normal();
        met.from += off;
        met.to += off;
        met.point = paths::position_at(told.paths[i], met.middle());
        met.hole_direction = paths::direction_at(told.paths[i], met.middle());
    }
    const std::vector<paths::Path> planned(told.paths.begin() + static_cast<std::ptrdiff_t>(drilled), told.paths.end());
    told.paths.resize(drilled);
    faults::Fault& fault = told.settings.events.faults[0];
    const Eigen::Vector3d off = slip_sd * Eigen::Vector3d(stream.normal(), stream.normal(), stream.normal());
    fault.slip += off - fault.plane.normal * fault.plane.normal.dot(off);
    fault.slip_sd = slip_sd;
    Ranks ranks;
    const std::vector<Vein> veins = told.model();
    for (std::size_t i = 0; i < planned.size() && !veins.empty(); ++i) {
        paths::Path path = planned[i];
        path.sources.clear();  // it runs where it is said to run
        for (const Crossing& crossing : veins[0].crossings(path))
            if (crossing.block == blocks[i] && crossing.chance > 0.5)
                ranks.of.push_back(crossing.cumulative_at(Scene::before_vein) / crossing.cumulative.back());
    }
    return ranks;
}

double share_within(const std::vector<double>& ranks, double nominal) {
    double within = 0.0;
    for (const double rank : ranks) within += std::abs(rank - 0.5) <= nominal / 2.0 ? 1.0 : 0.0;
    return within / static_cast<double>(ranks.size());
}

// Windows of the whole chain for pierce depths: 80 % ranges hold 75 to 88 %, 50 % ranges 44 to 60 %.
TEST(NearFault, ForecastsHoldOnBothSides) {
    std::vector<Ranks> all(worlds);
    base::parallel_for(worlds, [&](std::size_t i) { all[i] = ranks_of(i); });
    std::vector<double> ranks;
    for (const Ranks& one : all) ranks.insert(ranks.end(), one.of.begin(), one.of.end());
    ASSERT_GT(ranks.size(), 450u);
    const double half = share_within(ranks, 0.5), most = share_within(ranks, 0.8), nearly_all = share_within(ranks, 0.95);
    std::printf("%zu forecasts within %.0f m of a fault: 50 %% ranges %.3f, 80 %% ranges %.3f, 95 %% ranges %.3f\n", ranks.size(),
                near_fault, half, most, nearly_all);
    EXPECT_GT(most, 0.75);
    EXPECT_LT(most, 0.88);
    EXPECT_GT(half, 0.44);
    EXPECT_LT(half, 0.60);
}

}  // namespace
}  // namespace selvage::veins
