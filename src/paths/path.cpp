#include "paths/path.h"

#include "paths/minimum_curvature.h"

#include <Eigen/Geometry>

#include <algorithm>
#include <cassert>
#include <cmath>
#include <cstddef>
#include <vector>

namespace selvage::paths {

namespace {

Arc arc_of(const Station& from, const Station& to) { return arc_between(from.tangent, to.tangent, to.depth - from.depth); }

// The last station at or above a depth.
std::size_t station_above(const std::vector<Station>& stations, double depth) {
    const auto below = std::upper_bound(stations.begin() + 1, stations.end(), depth,
                                        [](double value, const Station& station) { return value < station.depth; });
    return static_cast<std::size_t>(below - stations.begin()) - 1;
}

// Up and to the right as the last station has them.
Eigen::Vector3d bend_past(const Path& path) {
    const Station& last = path.stations.back();
    const base::Angle azimuth = last.direction.azimuth.angle();
    const Eigen::Vector3d right(azimuth.cos(), -azimuth.sin(), 0.0);
    return path.lift * right.cross(last.tangent) + path.swing * right;
}

}  // namespace

double held_dip_cosine(double dip_cosine) {
    static const double least = base::Angle::degrees(88.0).cos();
    return std::max(least, dip_cosine);
}

RunOn run_on(const Path& path, double run) {
    const Eigen::Vector3d& tangent = path.stations.back().tangent;
    const Eigen::Vector3d bend = bend_past(path);
    const double turn = run * bend.norm();
    if (turn == 0.0) return {run * tangent, tangent};
    // (1 - cos x)/x^2 = (sin(x/2)/(x/2))^2/2, without loss for a small turn.
    const double half = std::sin(turn / 2.0) / (turn / 2.0), along = std::sin(turn) / turn;
    return {run * along * tangent + run * run / 2.0 * half * half * bend, std::cos(turn) * tangent + run * along * bend};
}

bool is_deviation(SourceKind kind) {
    return kind == SourceKind::start_azimuth || kind == SourceKind::start_dip || kind == SourceKind::lift_rate ||
           kind == SourceKind::swing_rate || kind == SourceKind::lift_wander || kind == SourceKind::swing_wander;
}

bool is_fault_slip(SourceKind kind) {
    return kind == SourceKind::fault_slip_east || kind == SourceKind::fault_slip_north ||
           kind == SourceKind::fault_slip_elevation;
}

const char* word_of(PathKind kind) {
    switch (kind) {
        case PathKind::surveyed: return "surveyed";
        case PathKind::extrapolated: return "extrapolated";
        case PathKind::forecast: return "forecast";
        case PathKind::planned: return "planned";
    }
    return "";
}

Eigen::Vector3d position_at(const Path& path, double depth) {
    assert(!path.stations.empty());
    const std::size_t above = station_above(path.stations, depth);
    const Station& from = path.stations[above];
    if (above + 1 == path.stations.size()) return from.position + run_on(path, depth - from.depth).displacement;
    const Arc arc = arc_of(from, path.stations[above + 1]);
    return from.position + displacement_on(arc, (depth - from.depth) / arc.length);
}

Eigen::Vector3d direction_at(const Path& path, double depth) {
    assert(!path.stations.empty());
    const std::size_t above = station_above(path.stations, depth);
    const Station& from = path.stations[above];
    if (above + 1 == path.stations.size()) return run_on(path, depth - from.depth).tangent;
    const Arc arc = arc_of(from, path.stations[above + 1]);
    return direction_on(arc, (depth - from.depth) / arc.length);
}

PathKind kind_at(const Path& path, double depth) {
    const bool anything_measured = !path.stations.empty() && path.stations.back().measured;
    if (anything_measured && depth <= path.surveyed_depth) return PathKind::surveyed;
    if (path.status == tables::HoleStatus::active) return PathKind::forecast;
    return tables::is_drilled(path.status) ? PathKind::extrapolated : PathKind::planned;
}

}  // namespace selvage::paths
