#include "sheets/key_plan.h"

#include "faults/fault_pieces.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace selvage::sheets {

namespace {

constexpr double trace_step = 25.0;  // m along a hole between points of its trace

using Place = Eigen::Vector2d;

std::vector<std::vector<Place>> parts_of(const std::vector<veins::TracePoint>& trace, double step) {
    std::vector<std::vector<Place>> parts;
    const veins::TracePoint* before = nullptr;
    for (const veins::TracePoint& point : trace) {
        if (!point.within_extent) {
            before = nullptr;
            continue;
        }
        if (!before || (point.mid - before->mid).norm() > 2.5 * step) parts.emplace_back();
        parts.back().push_back(point.mid.head<2>());
        before = &point;
    }
    parts.erase(std::remove_if(parts.begin(), parts.end(), [](const auto& part) { return part.size() < 2; }), parts.end());
    return parts;
}

// Shortens a line on a fault's plane to what belongs to a piece of it; false where that is nothing.
bool held(const faults::FaultPiece& piece, Eigen::Vector3d& a, Eigen::Vector3d& b) {
    for (const base::Plane& bound : piece.bounds) {
        const double over_a = base::signed_distance(bound, a), over_b = base::signed_distance(bound, b);
        if (over_a > 0.0 && over_b > 0.0) return false;
        if (over_a > 0.0)
            a += over_a / (over_a - over_b) * (b - a);
        else if (over_b > 0.0)
            b += over_b / (over_b - over_a) * (a - b);
    }
    return true;
}

// Where each fault cuts a level, ten radii to either side; none that is level itself.
std::vector<KeyMap::FaultLine> faults_at(const Results& results, const Eigen::Vector3d& middle, double radius) {
    constexpr double radii = 10.0, least_level = 0.05;
    std::vector<KeyMap::FaultLine> lines;
    for (const faults::Fault& fault : results.events.faults)
        for (const faults::FaultPiece& piece : faults::pieces_of(results.events, fault)) {
            const Place across = piece.plane.normal.head<2>();
            if (across.norm() < least_level) continue;
            const Place on = middle.head<2>() - across * (base::signed_distance(piece.plane, middle) / across.squaredNorm());
            const Place along = Place(-across.y(), across.x()).normalized() * (radii * radius);
            Eigen::Vector3d ends[2] = {{0.0, 0.0, middle.z()}, {0.0, 0.0, middle.z()}};
            ends[0].head<2>() = on - along;
            ends[1].head<2>() = on + along;
            if (held(piece, ends[0], ends[1])) lines.push_back({fault.name, ends[0].head<2>(), ends[1].head<2>()});
        }
    return lines;
}

}  // namespace

KeyMap key_map(const Results& results) {
    KeyMap map;
    Place low{1e18, 1e18}, high{-1e18, -1e18};
    for (const paths::Path& path : results.paths) {
        if (!tables::is_drill_hole(path.type) || path.status == tables::HoleStatus::cancelled) continue;
        KeyMap::Hole hole;
        hole.status = path.status;
        const double length = path.end_depth - path.start_depth;
        const int steps = std::max(1, static_cast<int>(std::ceil(length / trace_step)));
        for (int i = 0; i <= steps; ++i) {
            hole.trace.push_back(paths::position_at(path, path.start_depth + length * i / steps).head<2>());
            low = low.cwiseMin(hole.trace.back());
            high = high.cwiseMax(hole.trace.back());
        }
        map.holes.push_back(std::move(hole));
    }
    double sum = 0.0;
    for (const intercepts::Intercept& hit : results.intercepts.met) sum += hit.point.z();
    if (!results.intercepts.met.empty()) map.elevation = sum / static_cast<double>(results.intercepts.met.size());
    if (low.x() > high.x()) return map;
    const Place middle = (low + high) / 2.0;
    const double radius = (high - low).norm(), step = std::max(radius / 60.0, 5.0);
    map.faults = faults_at(results, {middle.x(), middle.y(), map.elevation}, radius);
    const base::Plane level{{middle.x(), middle.y(), map.elevation}, Eigen::Vector3d::UnitZ()};
    for (std::size_t i = 0; i < results.veins.size(); ++i) {
        KeyMap::VeinLine line;
        line.vein = i;
        line.name = results.veins[i].name();
        for (const std::vector<veins::TracePoint>& trace : results.veins[i].traces(level, radius, step))
            for (auto& part : parts_of(trace, step)) line.parts.push_back(std::move(part));
        if (!line.parts.empty()) map.veins.push_back(std::move(line));
    }
    return map;
}

}  // namespace selvage::sheets
