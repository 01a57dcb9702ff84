#include "sheets/drawn_side.h"

#include "faults/fault_pieces.h"
#include "faults/faults_ahead.h"
#include "sheets/trace_runs.h"

#include <algorithm>
#include <cmath>
#include <optional>

namespace selvage::sheets {

namespace {

// The plane of the fault's piece that comes nearest to the point.
std::optional<base::Plane> plane_near(const Results& results, const std::string& name, const Eigen::Vector3d& point) {
    std::optional<base::Plane> nearest;
    for (const faults::Fault& fault : results.events.faults) {
        if (fault.name != name) continue;
        for (const faults::FaultPiece& piece : faults::pieces_of(results.events, fault))
            if (!nearest ||
                std::abs(base::signed_distance(piece.plane, point)) < std::abs(base::signed_distance(*nearest, point)))
                nearest = piece.plane;
    }
    return nearest;
}

}  // namespace

double distance_from_fault(const Results& results, const std::string& fault, const Eigen::Vector3d& point) {
    const std::optional<base::Plane> plane = plane_near(results, fault, point);
    return plane ? base::signed_distance(*plane, point) : 0.0;
}

std::string apparent_crossing_words(const SectionDrawing& drawing, const paths::Path& path, const TraceRun& run) {
    const SectionFrame& frame = drawing.view.frame;
    const auto is_above = [&](const std::string& fault, const TracePlace& place, double share) {
        const Eigen::Vector3d drawn = frame.at(place.distance, place.up);
        return distance_from_fault(drawing.results, fault, drawn + share * place.offset * frame.away) >= 0.0;
    };
    const TracePlace &first = run.places.front(), &last = run.places.back();
    const std::vector<faults::FaultAhead> ahead =
        faults::faults_ahead(path, drawing.results.events, path.start_depth, path.end_depth);
    const auto may_cross = [&](const std::string& fault) {
        return std::any_of(ahead.begin(), ahead.end(), [&](const faults::FaultAhead& one) { return one.name == fault; });
    };
    for (const faults::Fault& fault : drawing.results.events.faults)
        if (is_above(fault.name, first, 0.0) != is_above(fault.name, last, 0.0) &&
            is_above(fault.name, first, 1.0) == is_above(fault.name, last, 1.0))
            return (may_cross(fault.name) ? "may not cross " : "as modelled does not cross ") + fault.name;
    return "";
}

std::string off_drawn_words(const SectionDrawing& drawing, const std::string& fault, const Eigen::Vector3d& point) {
    constexpr double told_mm = 2.0;
    const std::optional<base::Plane> plane = plane_near(drawing.results, fault, point);
    if (!plane) return "";
    const SectionFrame& frame = drawing.view.frame;
    const double offset = frame.offset(point);
    const double on_section = (plane->normal - plane->normal.dot(frame.away) * frame.away).norm();
    const double off = std::abs(base::signed_distance(*plane, point - offset * frame.away)) / std::max(on_section, 1e-6);
    return off / drawing.view.metres_per_mm < told_mm ? "" : "where the hole is " + offset_words(drawing, offset);
}

}  // namespace selvage::sheets
