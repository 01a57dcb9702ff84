#include "forecast/pierce.h"

#include "base/parallel.h"
#include "forecast/forecast_checks.h"
#include "veins/pierce_covariance.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <iterator>
#include <limits>
#include <set>
#include <string>
#include <utility>

namespace selvage::forecast {

namespace {

constexpr double call_probability = 0.02;
constexpr double stop_probability = 0.99;
constexpr double sds_beyond_extent = 2.0;  // that still give a row
const base::Angle along_vein = base::Angle::degrees(15);

bool is_to_come(const paths::Path& path) {
    return path.status == tables::HoleStatus::planned || path.status == tables::HoleStatus::active;
}

// The blocks of a vein in which an active hole has met it. A pick of certainty 3 is drawn, not modelled: the vein may still lie
// ahead.
std::set<std::string> met_blocks(const paths::Path& path, const veins::Vein& vein, const intercepts::Intercepts& intercepts) {
    std::set<std::string> blocks;
    if (path.status != tables::HoleStatus::active) return blocks;
    for (const intercepts::Intercept& met : intercepts.met)
        if (met.hole == path.hole && met.vein == vein.name() && met.certainty <= 2 && met.from <= path.drilled_depth)
            blocks.insert(vein.blocks().name(vein.block_at(met.point)));
    return blocks;
}

// Another block of a vein that the hole has met counts where the drill has not passed it yet.
bool lies_ahead(const veins::Crossing& crossing, const paths::Path& path, const std::set<std::string>& met) {
    return met.empty() || (met.count(crossing.block) == 0 && crossing.depth_at(0.5) > path.drilled_depth);
}

std::vector<std::string> flags_of(const Pierce& pierce, const veins::Vein& vein) {
    std::vector<std::string> flags;
    if (vein.summary().prior_only) flags.emplace_back("prior-only");
    if (pierce.angle < along_vein) flags.emplace_back("along-vein");
    if (!pierce.crossing.within_extent) flags.emplace_back("beyond-extent");
    return flags;
}

Pierce pierce_of(const paths::Path& path, const veins::Vein& vein, std::size_t vein_number, veins::Crossing crossing,
                 double tail) {
    Pierce pierce;
    pierce.hole = path.hole;
    pierce.vein = vein.name();
    pierce.vein_number = vein_number;
    pierce.depth = crossing.depth_at(0.5);
    pierce.depth_p10 = crossing.depth_at(0.1);
    pierce.depth_p90 = crossing.depth_at(0.9);
    pierce.call_depth = crossing.depth_at(call_probability);
    pierce.stop_depth = crossing.depth_at(stop_probability) + tail;
    pierce.chance_reached = crossing.cumulative_at(path.end_depth);
    pierce.crossing = std::move(crossing);
    pierce.point = paths::position_at(path, pierce.depth);
    const veins::AtPoint there = vein.at(pierce.point, pierce.crossing.block_number);
    const double sine = std::abs(there.normal.dot(paths::direction_at(path, pierce.depth)));
    pierce.angle = base::Angle::radians(std::asin(std::min(1.0, sine)));
    pierce.covariance = veins::pierce_covariance(path, pierce.depth, there.normal, pierce.depth_sd());
    pierce.log_thickness = there.content.log_thickness;
    pierce.log_grades = there.content.log_grades;
    pierce.presence = there.presence;
    pierce.flags = flags_of(pierce, vein);
    return pierce;
}

// What one hole still has ahead of it, by depth.
struct Ahead {
    std::vector<Pierce> rows;
    bool all_met = false;
};

Ahead ahead_of(const paths::Path& path, const std::vector<veins::Vein>& veins, const intercepts::Intercepts& intercepts,
               double tail) {
    Ahead ahead;
    std::vector<Pierce> off;
    std::size_t met = 0;
    for (std::size_t number = 0; number < veins.size(); ++number) {
        const std::set<std::string> met_in = met_blocks(path, veins[number], intercepts);
        met += met_in.empty() ? 0 : 1;
        if (!met_in.empty() && !veins[number].blocks().is_cut()) continue;
        std::vector<veins::Crossing> crossings = veins[number].crossings(path);
        // Once one piece counts, so do the vein's others: their chances belong together.
        const bool near = std::any_of(crossings.begin(), crossings.end(), [](const veins::Crossing& crossing) {
            return crossing.within_extent || crossing.beyond_extent_sd <= sds_beyond_extent;
        });
        for (veins::Crossing& crossing : crossings) {
            if (!lies_ahead(crossing, path, met_in)) continue;
            (near ? ahead.rows : off).push_back(pierce_of(path, veins[number], number, std::move(crossing), tail));
        }
    }
    ahead.all_met = met == veins.size();
    if (ahead.rows.empty() && !off.empty()) {
        const auto nearest = std::min_element(off.begin(), off.end(), [](const Pierce& a, const Pierce& b) {
            return a.crossing.beyond_extent_sd < b.crossing.beyond_extent_sd;
        });
        nearest->flags.insert(nearest->flags.begin(), "nearest-vein");
        ahead.rows.push_back(std::move(*nearest));
    }
    std::stable_sort(ahead.rows.begin(), ahead.rows.end(), [](const Pierce& a, const Pierce& b) { return a.depth < b.depth; });
    return ahead;
}

// By the distance of the path's points from the veins' mean planes.
std::size_t nearest_vein(const paths::Path& path, const std::vector<veins::Vein>& veins) {
    constexpr int steps = 50;
    std::size_t nearest = 0;
    double least = std::numeric_limits<double>::infinity();
    for (std::size_t number = 0; number < veins.size(); ++number)
        for (int i = 0; i <= steps; ++i) {
            const double depth = path.start_depth + (path.end_depth - path.start_depth) * i / steps;
            const double away = std::abs(base::signed_distance(veins[number].mean_plane(), paths::position_at(path, depth)));
            if (away >= least) continue;
            least = away;
            nearest = number;
        }
    return nearest;
}

}  // namespace

base::Checked<Forecast> forecast_pierces(const std::vector<paths::Path>& paths, const std::vector<veins::Vein>& veins,
                                         const intercepts::Intercepts& intercepts, const settings::Plan& plan) {
    std::vector<Ahead> ahead(paths.size());
    base::parallel_for(paths.size(), [&](std::size_t i) {
        if (!is_to_come(paths[i])) return;
        ahead[i] = ahead_of(paths[i], veins, intercepts, plan.tail);
        for (Pierce& pierce : ahead[i].rows)
            pierce.budget = veins[pierce.vein_number].error_budget(paths[i], pierce.depth, pierce.crossing.block_number, paths);
    });
    base::Checked<Forecast> forecast;
    for (std::size_t i = 0; i < paths.size(); ++i) {
        if (is_to_come(paths[i]) && ahead[i].rows.empty() && !ahead[i].all_met && !veins.empty()) {
            const std::size_t nearest = nearest_vein(paths[i], veins);
            forecast.value.no_crossings.push_back({paths[i].hole, veins[nearest].name(), nearest});
            forecast.findings.push_back({&no_crossing_ahead,
                                         {"collars", "", 0},
                                         paths[i].hole,
                                         "its path, run on, comes to no modelled vein; it has no forecast"});
        }
        std::move(ahead[i].rows.begin(), ahead[i].rows.end(), std::back_inserter(forecast.value.pierces));
    }
    return forecast;
}

}  // namespace selvage::forecast
