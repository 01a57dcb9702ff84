#include "sheets/vein_extent.h"

#include <algorithm>

namespace selvage::sheets {

VeinExtent::VeinExtent(const std::vector<veins::EdgeLine>& edges, const PlaneLayout& layout) {
    for (const veins::EdgeLine& edge : edges)
        for (std::size_t i = 1; i < edge.points.size(); ++i)
            pieces.push_back({layout.layout_from_world(edge.points[i - 1]), layout.layout_from_world(edge.points[i])});
}

double distance_to_piece(const Eigen::Vector2d& place, const Eigen::Vector2d& a, const Eigen::Vector2d& b) {
    const Eigen::Vector2d run = b - a;
    const double length_squared = run.squaredNorm();
    const double share = length_squared > 0.0 ? std::clamp((place - a).dot(run) / length_squared, 0.0, 1.0) : 0.0;
    return (place - a - share * run).norm();
}

}  // namespace selvage::sheets
