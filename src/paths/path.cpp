#include "paths/path.h"

#include "paths/minimum_curvature.h"

#include <algorithm>
#include <cassert>
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

}  // namespace

bool is_deviation(SourceKind kind) {
    return kind == SourceKind::start_azimuth || kind == SourceKind::start_dip || kind == SourceKind::lift_rate ||
           kind == SourceKind::swing_rate;
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
    if (above + 1 == path.stations.size()) return from.position + (depth - from.depth) * from.tangent;
    const Arc arc = arc_of(from, path.stations[above + 1]);
    return from.position + displacement_on(arc, (depth - from.depth) / arc.length);
}

Eigen::Vector3d direction_at(const Path& path, double depth) {
    assert(!path.stations.empty());
    const std::size_t above = station_above(path.stations, depth);
    const Station& from = path.stations[above];
    if (above + 1 == path.stations.size()) return from.tangent;
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
