#include "forecast/vein_of.h"

#include "base/parallel.h"
#include "base/text.h"
#include "forecast/forecast_checks.h"
#include "numerics/normal_mixture.h"
#include "paths/locate.h"

#include <algorithm>
#include <cmath>
#include <iterator>

namespace selvage::forecast {

namespace {

constexpr double other_veins = 1.0 / 200.0;  // a metre of core
constexpr double least_probability = 0.005;
constexpr double far_better = 20.0;

bool says_vein(const std::string& rock) {
    const std::string folded = base::folded(rock);
    return folded.find("vein") != std::string::npos;
}

bool is_picked(const intercepts::Intercepts& intercepts, const tables::GeologyInterval& row) {
    return std::any_of(intercepts.met.begin(), intercepts.met.end(), [&](const intercepts::Intercept& met) {
        return met.hole == row.hole && met.from < row.to && met.to > row.from;
    });
}

// Presence times the density of the crossing's depth, a metre.
double density_at(const veins::Vein& vein, const paths::Path& path, double depth) {
    constexpr double half = 1.0;  // m: a curve's knots are some metres apart
    double density = 0.0;
    for (const veins::Crossing& crossing : vein.crossings(path))
        density += (crossing.cumulative_at(depth + half) - crossing.cumulative_at(depth - half)) / (2.0 * half);
    return density > 0.0 ? density * vein.at(paths::position_at(path, depth)).presence : 0.0;
}

std::vector<VeinOf> veins_of_row(const tables::GeologyInterval& row, const paths::Path& path,
                                 const std::vector<veins::Vein>& veins) {
    std::vector<double> densities;
    double sum = other_veins;
    for (const veins::Vein& vein : veins) {
        densities.push_back(density_at(vein, path, (row.from + row.to) / 2.0));
        sum += densities.back();
    }
    std::vector<VeinOf> rows;
    for (std::size_t i = 0; i < veins.size(); ++i)
        if (const double probability = densities[i] / sum; probability >= least_probability)
            rows.push_back({row.hole, row.from, row.to, veins[i].name(), probability});
    return rows;
}

// Density of a pick's depth by its own vein's other intercepts.
double own_density(const veins::FitRow& fit) {
    if (fit.depth_sd <= 0.0) return 0.0;
    return numerics::normal_density((fit.actual_depth - fit.predicted_depth) / fit.depth_sd) / fit.depth_sd;
}

}  // namespace

std::vector<VeinOf> veins_of(const tables::Records& records, const intercepts::Intercepts& intercepts,
                             const std::vector<paths::Path>& paths, const std::vector<veins::Vein>& veins) {
    const paths::PathIndex index(paths);
    std::vector<std::vector<VeinOf>> by_row(records.geology.size());
    base::parallel_for(records.geology.size(), [&](std::size_t i) {
        const tables::GeologyInterval& row = records.geology[i];
        const paths::Path* path = index.find(row.hole);
        if (path == nullptr || !row.vein.empty() || !says_vein(row.rock) || is_picked(intercepts, row)) return;
        by_row[i] = veins_of_row(row, *path, veins);
    });
    std::vector<VeinOf> rows;
    for (std::vector<VeinOf>& one : by_row) std::move(one.begin(), one.end(), std::back_inserter(rows));
    return rows;
}

std::vector<base::Finding> doubtful_names(const intercepts::Intercepts& intercepts, const std::vector<paths::Path>& paths,
                                          const std::vector<veins::Vein>& veins) {
    const paths::PathIndex index(paths);
    std::vector<base::Finding> findings;
    for (const veins::Vein& vein : veins)
        for (const veins::FitRow& fit : vein.fit()) {
            const paths::Path* path = index.find(fit.hole);
            if (path == nullptr || !fit.is_doubtful()) continue;
            const auto met = std::find_if(intercepts.met.begin(), intercepts.met.end(), [&](const intercepts::Intercept& one) {
                return one.hole == fit.hole && one.vein == vein.name() && std::abs(one.middle() - fit.actual_depth) < 1e-6;
            });
            if (met == intercepts.met.end()) continue;
            for (const veins::Vein& other : veins)
                if (&other != &vein && density_at(other, *path, fit.actual_depth) > far_better * own_density(fit))
                    findings.push_back({&pick_of_another_vein, met->origin, fit.hole,
                                        "picked as " + vein.name() + ", but " + other.name() +
                                            " is far likelier at that depth; it is used as picked"});
        }
    return findings;
}

}  // namespace selvage::forecast
