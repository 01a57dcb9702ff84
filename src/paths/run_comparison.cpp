#include "paths/run_comparison.h"

#include "base/text.h"
#include "paths/path_checks.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace selvage::paths {

namespace {

// How many standard deviations apart two runs may lie: beyond this chance is no explanation (1 in 90 in three dimensions at 3).
constexpr double most_deviations = 3.0;

struct Separation {
    double distance = 0.0, depth = 0.0;  // m
    double worst = 0.0;                  // distance over its standard deviation, at its largest
};

bool is_of_collar(SourceKind kind) {
    return kind == SourceKind::collar_east || kind == SourceKind::collar_north || kind == SourceKind::collar_elevation;
}

// Variance of a path's place along a direction, without the collar.
double variance_along(const Path& path, double depth, const Eigen::Vector3d& direction) {
    double variance = 0.0;
    for (const SourceEffect& effect : effects_at(path, depth)) {
        if (is_of_collar(effect.source.id.kind)) continue;
        const double one = effect.source.sd * effect.displacement.dot(direction);
        variance += one * one;
    }
    return variance;
}

Separation largest_separation(const Path& path, const Path& other) {
    Separation largest;
    for (const Station& station : other.stations) {
        if (station.depth > path.surveyed_depth) break;
        const Eigen::Vector3d apart = position_at(path, station.depth) - station.position;
        const double distance = apart.norm();
        if (!(distance > 0.0)) continue;
        const Eigen::Vector3d direction = apart / distance;
        const double variance = variance_along(path, station.depth, direction) + variance_along(other, station.depth, direction);
        if (variance > 0.0) largest.worst = std::max(largest.worst, distance / std::sqrt(variance));
        if (distance > largest.distance) {
            largest.distance = distance;
            largest.depth = station.depth;
        }
    }
    return largest;
}

}  // namespace

std::vector<base::Finding> compare_runs(const HoleToPlace& hole, const Path& path, const Placing& placing) {
    std::vector<base::Finding> findings;
    const std::vector<SurveyRun>& runs = hole.surveys->runs;
    for (std::size_t i = 1; i < runs.size(); ++i) {
        const Separation apart = largest_separation(path, placed_by_run(hole, runs[i], path, placing));
        const base::Check& check = apart.worst > most_deviations ? survey_runs_disagree : survey_runs_compared;
        const char* unit = base::symbol_of(placing.frame.unit);
        findings.push_back(
            {&check, hole.collar->origin, hole.collar->hole,
             fmt::format("{} is used; {} lies up to {} {} from it, at {} {} ({} standard deviations at most)",
                         runs.front().title(), runs[i].title(), base::fixed(placing.frame.length(apart.distance), 2), unit,
                         base::fixed(placing.frame.length(apart.depth), 1), unit, base::fixed(apart.worst, 1))});
    }
    return findings;
}

}  // namespace selvage::paths
