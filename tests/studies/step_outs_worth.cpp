#include "studies/chain.h"
#include "studies/studies.h"

#include "base/parallel.h"
#include "support/forecast_world.h"

#include <fmt/format.h>

#include <Eigen/Geometry>

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <limits>
#include <utility>

namespace selvage::studies {

namespace {

constexpr std::uint64_t first_world = 1000;
constexpr std::size_t worlds = 50;
constexpr std::size_t holes_to_come = 10;

using Ground = std::vector<veins::GroundPlace>;

std::size_t nearest_place(const Ground& ground, const Eigen::Vector3d& point) {
    std::size_t nearest = 0;
    for (std::size_t i = 1; i < ground.size(); ++i)
        if ((ground[i].point - point).norm() < (ground[nearest].point - point).norm()) nearest = i;
    return nearest;
}

Eigen::Vector3d middle_of(const std::vector<intercepts::Intercept>& met) {
    Eigen::Vector3d sum = Eigen::Vector3d::Zero();
    for (const intercepts::Intercept& one : met) sum += one.point;
    return sum / static_cast<double>(met.size());
}

// Ten places one hole spacing outside the drilled ground, evenly about its middle.
std::vector<std::size_t> on_a_ring(const Ground& ground, const Eigen::Vector3d& middle, double spacing) {
    const Eigen::Vector3d along = Eigen::Vector3d::UnitZ().cross(ground.front().normal).normalized();
    const Eigen::Vector3d up_dip = ground.front().normal.cross(along);
    std::vector<std::size_t> ring;
    for (std::size_t k = 0; k < holes_to_come; ++k) {
        const double angle = 2.0 * std::acos(-1.0) * static_cast<double>(k) / static_cast<double>(holes_to_come);
        const Eigen::Vector3d direction = std::cos(angle) * along + std::sin(angle) * up_dip;
        double best = 1e300;
        std::size_t chosen = 0;
        for (std::size_t i = 0; i < ground.size(); ++i) {
            const Eigen::Vector3d run = ground[i].point - middle;
            const double off_line = (run - run.dot(direction) * direction).norm() + (run.dot(direction) < 0.0 ? 1e6 : 0.0);
            const double misfit = std::abs(ground[i].nearest_hit - spacing) + off_line / 3.0;
            if (misfit >= best) continue;
            best = misfit;
            chosen = i;
        }
        ring.push_back(chosen);
    }
    return ring;
}

// Ten places beside the thickest hits, a third of a spacing off, in turn on four sides.
std::vector<std::size_t> beside_best_hits(const Ground& ground, std::vector<intercepts::Intercept> met, double spacing) {
    std::stable_sort(met.begin(), met.end(), [](const auto& a, const auto& b) {
        return a.true_thickness.value_or(0.0) > b.true_thickness.value_or(0.0);
    });
    const Eigen::Vector3d along = Eigen::Vector3d::UnitZ().cross(ground.front().normal).normalized();
    const Eigen::Vector3d up_dip = ground.front().normal.cross(along);
    std::vector<std::size_t> places;
    for (std::size_t k = 0; k < holes_to_come; ++k) {
        const Eigen::Vector3d side = k % 4 == 0   ? along
                                     : k % 4 == 1 ? Eigen::Vector3d(-along)
                                     : k % 4 == 2 ? up_dip
                                                  : Eigen::Vector3d(-up_dip);
        places.push_back(nearest_place(ground, met[(k / 4) % met.size()].point + spacing / 3.0 * side));
    }
    return places;
}

struct Left {
    bool complete = false;                                        // as many step-outs were chosen as are to come
    double chosen = 0.0, ring = 0.0, beside = 0.0, before = 0.0;  // rms error over the ground not drilled yet, m
};

Left left_of(std::uint64_t world) {
    const made_up::ForecastWorld made = made_up::forecast_world(world, 10, 1);
    const app::Results results = results_of(made.project, fmt::format("step-outs-world-{}", world));
    const veins::Vein& vein = results.veins.front();
    const double spacing = vein.summary().hole_spacing;
    const Ground ground = vein.ground(std::max(spacing / 4.0, std::sqrt(vein.summary().area / 300.0)));
    std::vector<double> weights;
    double sum = 0.0;
    for (const veins::GroundPlace& place : ground) {
        weights.push_back(place.nearest_hit < spacing / 2.0 ? 0.0 : place.area * place.presence);
        sum += weights.back();
    }
    const auto left_after = [&](const std::vector<std::size_t>& drilled) {
        veins::Teaching teaching = vein.teaching(ground, weights, std::vector<double>(ground.size(), 0.5));
        for (const std::size_t place : drilled) teaching.drill(place);
        return std::sqrt(teaching.variance_sum() / sum);
    };
    std::vector<std::size_t> chosen;
    for (const planning::StepOut& rank : results.step_outs) chosen.push_back(nearest_place(ground, rank.point));
    const std::vector<intercepts::Intercept>& met = results.intercepts.met;
    return {chosen.size() == holes_to_come, left_after(chosen), left_after(on_a_ring(ground, middle_of(met), spacing)),
            left_after(beside_best_hits(ground, met, spacing)), left_after({})};
}

}  // namespace

// Less error left than by both others in 40 or more of 50, laid down beforehand.
Study step_outs_worth() {
    Study study{"Ten step-outs, as chosen",
                fmt::format("{} projects. Root mean square error left over the ground that is not drilled yet: after ten chosen "
                            "holes, ten on a ring one spacing outside, ten beside the best hits",
                            worlds),
                fmt::format("worlds {} to {}", first_world, first_world + worlds - 1),
                {"chosen", "ring", "best hits", "now"},
                1,
                {},
                {}};
    std::vector<Left> left(worlds);
    base::parallel_for(worlds, [&](std::size_t i) { left[i] = left_of(first_world + i); });
    double better = 0.0;
    Left mean;
    for (const Left& one : left) {
        better += one.complete && one.chosen < one.ring && one.chosen < one.beside ? 1.0 : 0.0;
        mean.chosen += one.chosen / worlds;
        mean.ring += one.ring / worlds;
        mean.beside += one.beside / worlds;
        mean.before += one.before / worlds;
    }
    const auto figure = [](double value) { return Figure{value, std::nullopt}; };
    study.rows.push_back(
        {"error left, mean, m", worlds, {figure(mean.chosen), figure(mean.ring), figure(mean.beside), figure(mean.before)}});
    study.rows.push_back(
        {"projects where chosen leave the least",
         worlds,
         {Figure{better, Window{40.0, std::numeric_limits<double>::infinity()}}, std::nullopt, std::nullopt, std::nullopt}});
    return study;
}

}  // namespace selvage::studies
