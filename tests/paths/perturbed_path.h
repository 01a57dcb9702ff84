#pragma once

#include "paths/path.h"

#include <algorithm>
#include <cmath>
#include <map>

// The true hole behind a recorded one: every reading, depth and collar moved by given errors, and the path worked out anew by the
// program's own minimum curvature. It knows nothing of levers or effects.
namespace selvage::paths {

using Errors = std::map<SourceId, double>;

inline double error_of(const Errors& errors, SourceKind kind, std::size_t owner, int station) {
    const auto found = errors.find({kind, static_cast<int>(owner), station});
    return found == errors.end() ? 0.0 : found->second;
}

// By how much the readings of a station are off, radians: azimuth anticlockwise, dip down.
struct ReadingError {
    double azimuth = 0.0, dip = 0.0;
};

inline ReadingError reading_error(const Path& path, const Station& station, const Errors& errors) {
    ReadingError error;
    if (station.azimuth_method >= 0) {
        const int method = path.methods[static_cast<std::size_t>(station.azimuth_method)];
        error.azimuth += error_of(errors, SourceKind::azimuth_common, static_cast<std::size_t>(method), 0) +
                         error_of(errors, SourceKind::azimuth_hole, path.number, station.azimuth_method) +
                         error_of(errors, SourceKind::azimuth_station, path.number, station.measured_at);
    } else {
        error.azimuth += error_of(errors, SourceKind::start_azimuth, path.number, 0);
    }
    if (station.dip_method >= 0)
        error.dip += error_of(errors, SourceKind::dip_hole, path.number, station.dip_method) +
                     error_of(errors, SourceKind::dip_station, path.number, station.measured_at);
    else
        error.dip += error_of(errors, SourceKind::start_dip, path.number, 0);
    return error;
}

// A hole's own collar and depth scale, or the first ancestor's.
inline Eigen::Vector3d collar_error(const Path& path, const Errors& errors) {
    Eigen::Vector3d error = Eigen::Vector3d::Zero();
    for (const ErrorSource& source : path.sources) {
        const auto found = errors.find(source.id);
        if (found == errors.end()) continue;
        if (source.id.kind == SourceKind::collar_east) error.x() += found->second;
        if (source.id.kind == SourceKind::collar_north) error.y() += found->second;
        if (source.id.kind == SourceKind::collar_elevation) error.z() += found->second;
    }
    return error;
}

inline double depth_factor(const Path& path, const Errors& errors) {
    for (const ErrorSource& source : path.sources)
        if (source.id.kind == SourceKind::depth_scale && errors.count(source.id) == 1) return 1.0 + errors.at(source.id);
    return 1.0;
}

// Past the last station the true hole bends by its own rates and wanders off the expected arc: stations every metre for as long
// as asked.
inline void bend_on(Path& path, const Errors& errors, double to) {
    const auto of = [&](SourceKind kind) { return error_of(errors, kind, path.number, 0); };
    const double lift = of(SourceKind::lift_rate), swing = of(SourceKind::swing_rate);
    const double lift_wander = of(SourceKind::lift_wander), swing_wander = of(SourceKind::swing_wander);
    if (lift == 0.0 && swing == 0.0 && lift_wander == 0.0 && swing_wander == 0.0) return;
    const Path expected = path;
    const Station last = path.stations.back();
    for (double depth = last.depth + 1.0; depth < to + 1.0; depth += 1.0) {
        const double run = depth - last.depth, walk = std::sqrt(3.0 * run) / 2.0;
        Station next = last;
        next.depth = depth;
        next.direction = base::direction_of(direction_at(expected, depth));
        const double across = next.direction.dip.angle().cos();
        next.direction.dip = base::Dip(next.direction.dip.angle() - base::Angle::radians(lift * run + lift_wander * walk));
        next.direction.azimuth =
            base::Azimuth(next.direction.azimuth.angle() + base::Angle::radians((swing * run + swing_wander * walk) / across));
        path.stations.push_back(next);
    }
    path.lift = path.swing = 0.0;
}

// true_parent: of a daughter, its parent moved by the same errors.
inline Path perturbed(const Path& path, const Errors& errors, const Path* true_parent = nullptr, double to = 0.0) {
    Path moved = path;
    const double factor = depth_factor(path, errors);
    moved.start_depth *= factor;
    moved.lift /= factor;
    moved.swing /= factor;
    const bool goes_on = true_parent != nullptr && path.stations.size() == 1;
    if (goes_on) moved.stations.front().direction = base::direction_of(direction_at(*true_parent, moved.start_depth));
    for (Station& station : moved.stations) {
        const ReadingError error = reading_error(path, station, errors);
        station.direction.azimuth = base::Azimuth(station.direction.azimuth.angle() - base::Angle::radians(error.azimuth));
        station.direction.dip = base::Dip(station.direction.dip.angle() + base::Angle::radians(error.dip));
        station.depth *= factor;
    }
    Station& first = moved.stations.front();
    first.position =
        true_parent != nullptr ? position_at(*true_parent, moved.start_depth) : first.position + collar_error(path, errors);
    settle(moved.stations);
    bend_on(moved, errors, factor * to);
    settle(moved.stations);
    return moved;
}

}  // namespace selvage::paths
