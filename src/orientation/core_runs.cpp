#include "orientation/core_runs.h"

#include "base/parallel.h"
#include "base/text.h"
#include "orientation/orientation_checks.h"
#include "paths/locate.h"

#include <Eigen/Geometry>

#include <algorithm>
#include <cmath>
#include <map>
#include <tuple>
#include <utility>

namespace selvage::orientation {

namespace {

constexpr double kernel_kappa = 33.0;  // Fisher: a standard deviation of 10 degrees in each direction
// Share of planes that belong to no set: many joints do, hardly a contact of a named vein.
constexpr double even_share = 0.25, even_share_of_vein = 0.05;
constexpr int turns = 36;
constexpr std::size_t least_rows = 5, least_others = 4;
constexpr double named_from = 3.0;  // log of 20
constexpr double usual_mistakes = 3.0;
constexpr double cell_degrees = 3.0;

// Density of axes of one kind, relative to an even one: a sum of kernels, looked up on a grid of trend and plunge.
class AxisDensity {
public:
    explicit AxisDensity(const std::vector<Eigen::Vector3d>& axes) : cells_(columns * rows) {
        base::parallel_for(rows, [&](std::size_t row) {
            for (std::size_t column = 0; column < columns; ++column)
                for (const Eigen::Vector3d& axis : axes) cells_[row * columns + column] += kernel(axis, centre(column, row));
        });
    }
    // Relative density of one axis at another, its mean over the hemisphere 1.
    static double kernel(const Eigen::Vector3d& axis, const Eigen::Vector3d& at) {
        return kernel_kappa * std::exp(kernel_kappa * (std::abs(axis.dot(at)) - 1.0));
    }
    double sum_at(const Eigen::Vector3d& axis) const {
        const base::Direction down = base::direction_of(axis.z() > 0.0 ? Eigen::Vector3d(-axis) : axis);
        const auto column = static_cast<std::size_t>(down.azimuth.degrees() / cell_degrees) % columns;
        const auto row = std::min(rows - 1, static_cast<std::size_t>(std::max(0.0, down.dip.degrees()) / cell_degrees));
        return cells_[row * columns + column];
    }

private:
    static constexpr std::size_t columns = 120, rows = 30;
    static Eigen::Vector3d centre(std::size_t column, std::size_t row) {
        return base::unit_vector({base::Azimuth::degrees((static_cast<double>(column) + 0.5) * cell_degrees),
                                  base::Dip::degrees((static_cast<double>(row) + 0.5) * cell_degrees)});
    }
    std::vector<double> cells_;
};

// Rows that one density speaks of.
using Group = std::pair<std::string, std::string>;  // kind, vein

struct Reading {
    Eigen::Vector3d pole, core_axis;
    Group group;
    base::Origin origin;
};

struct Run {
    std::string hole, line;
    std::vector<Reading> readings;
};

struct Population {
    std::vector<Eigen::Vector3d> axes;
};

std::vector<Run> runs_of(const std::vector<Orientation>& orientations, const paths::PathIndex& index) {
    std::map<std::pair<std::string, std::string>, std::size_t> numbers;
    std::vector<Run> runs;
    for (const Orientation& row : orientations) {
        const paths::Path* path = index.find(row.hole);
        if (!row.from_core_angles || row.line.empty() || path == nullptr) continue;
        const auto [place, is_new] = numbers.emplace(std::pair(row.hole, row.line), runs.size());
        if (is_new) runs.push_back({row.hole, row.line, {}});
        runs[place->second].readings.push_back(
            {*row.pole, paths::direction_at(*path, row.depth), {row.kind, row.vein}, row.origin});
    }
    return runs;
}

// The plane as it would lie had the line been drawn elsewhere.
Eigen::Vector3d turned(const Reading& reading, double angle, bool mirrored) {
    Eigen::Vector3d pole = reading.pole;
    if (mirrored) {
        const Eigen::Vector3d side = Eigen::Vector3d::UnitZ().cross(reading.core_axis).normalized();
        pole -= 2.0 * pole.dot(side) * side;
    }
    return Eigen::AngleAxisd(angle, reading.core_axis) * pole;
}

double log_likelihood(const Run& run, const std::map<Group, AxisDensity>& densities, const std::map<Group, Population>& all,
                      double angle, bool mirrored) {
    double sum = 0.0;
    for (const Reading& reading : run.readings) {
        const Eigen::Vector3d pole = turned(reading, angle, mirrored);
        double own = 0.0, own_count = 0.0;
        for (const Reading& other : run.readings) {
            if (other.group != reading.group) continue;
            own += AxisDensity::kernel(other.pole, pole);
            own_count += 1.0;
        }
        const double others = static_cast<double>(all.at(reading.group).axes.size()) - own_count;
        if (others < static_cast<double>(least_others)) continue;
        const double density = std::max(0.0, densities.at(reading.group).sum_at(pole) - own) / others;
        const double even = reading.group.second.empty() ? even_share : even_share_of_vein;
        sum += std::log(even + (1.0 - even) * density);
    }
    return sum;
}

TurnedRun best_turn(const Run& run, const std::map<Group, AxisDensity>& densities, const std::map<Group, Population>& all) {
    const double as_drawn = log_likelihood(run, densities, all, 0.0, false);
    TurnedRun best{run.readings.front().origin, run.hole, run.line, run.readings.size(), {}, false, 0.0};
    double highest = 0.0;
    for (const bool mirrored : {false, true})
        for (int turn = 0; turn < turns; ++turn) {
            const base::Angle angle = base::Angle::degrees(360.0 * turn / turns);
            const bool usual = turn == turns / 2 || (mirrored && turn == 0);
            const double among = usual ? 1.0 : 2.0 * turns - usual_mistakes - 1.0;
            const double odds = log_likelihood(run, densities, all, angle.radians(), mirrored) - as_drawn -
                                std::log((usual_mistakes + 1.0) * among);
            if (odds <= highest) continue;
            highest = odds;
            best.turned_by = angle;
            best.mirrored = mirrored;
        }
    best.log_odds = highest;
    return best;
}

}  // namespace

std::vector<TurnedRun> turned_runs(const std::vector<Orientation>& orientations, const std::vector<paths::Path>& paths) {
    const paths::PathIndex index(paths);
    const std::vector<Run> runs = runs_of(orientations, index);
    std::map<Group, Population> all;
    for (const Run& run : runs)
        for (const Reading& reading : run.readings) all[reading.group].axes.push_back(reading.pole);
    std::map<Group, AxisDensity> densities;
    for (const auto& [group, population] : all) densities.emplace(group, AxisDensity(population.axes));
    std::vector<TurnedRun> audited(runs.size());
    base::parallel_for(runs.size(), [&](std::size_t i) {
        if (runs[i].readings.size() >= least_rows) audited[i] = best_turn(runs[i], densities, all);
    });
    std::vector<TurnedRun> named;
    for (TurnedRun& run : audited)
        if (run.log_odds > named_from) named.push_back(std::move(run));
    return named;
}

std::vector<base::Finding> audit_core_runs(const std::vector<Orientation>& orientations, const std::vector<paths::Path>& paths) {
    std::vector<base::Finding> findings;
    for (const TurnedRun& run : turned_runs(orientations, paths)) {
        const std::string turn = base::fixed(run.turned_by.degrees(), 0) + " degrees";
        const std::string how =
            run.mirrored ? "beta read anticlockwise" + (run.turned_by.degrees() > 0.0 ? " and the line turned by " + turn : "")
                         : "the line turned by " + turn;
        findings.push_back({&core_run_turned, run.origin, run.hole,
                            "core run " + run.line + ": its " + std::to_string(run.rows) +
                                " planes fit those of the other runs far better with " + how + "; they are used as they are"});
    }
    return findings;
}

}  // namespace selvage::orientation
