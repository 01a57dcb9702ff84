#include "sheets/vein_extent.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace selvage::sheets {

VeinExtent::VeinExtent(const std::vector<veins::EdgeLine>& edges, const PlaneLayout& layout) {
    for (const veins::EdgeLine& edge : edges)
        for (std::size_t i = 1; i < edge.points.size(); ++i)
            ends_.push_back({layout.layout_from_world(edge.points[i - 1]), layout.layout_from_world(edge.points[i])});
}

double VeinExtent::inside_by(const Eigen::Vector2d& place) const {
    if (ends_.empty()) return -std::numeric_limits<double>::infinity();
    bool inside = false;
    double nearest_squared = std::numeric_limits<double>::infinity();
    for (const Piece& piece : ends_) {
        const Eigen::Vector2d run = piece.b - piece.a;
        const Eigen::Vector2d off = place - piece.a;
        const double length_squared = run.squaredNorm();
        const double share = length_squared > 0.0 ? std::clamp(off.dot(run) / length_squared, 0.0, 1.0) : 0.0;
        nearest_squared = std::min(nearest_squared, (off - share * run).squaredNorm());
        // Even-odd rule: each piece that a ray to the right crosses.
        if ((piece.a.y() > place.y()) != (piece.b.y() > place.y()) &&
            place.x() < piece.a.x() + run.x() * (place.y() - piece.a.y()) / run.y())
            inside = !inside;
    }
    return inside ? std::sqrt(nearest_squared) : -std::sqrt(nearest_squared);
}

double distance_to_piece(const Eigen::Vector2d& place, const Eigen::Vector2d& a, const Eigen::Vector2d& b) {
    const Eigen::Vector2d run = b - a;
    const double length_squared = run.squaredNorm();
    const double share = length_squared > 0.0 ? std::clamp((place - a).dot(run) / length_squared, 0.0, 1.0) : 0.0;
    return (place - a - share * run).norm();
}

}  // namespace selvage::sheets
