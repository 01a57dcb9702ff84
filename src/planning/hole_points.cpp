#include "planning/hole_points.h"

#include "base/segment.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace selvage::planning {

std::vector<HolePoints> hole_points(const std::vector<paths::Path>& paths) {
    std::vector<HolePoints> holes;
    for (const paths::Path& path : paths) {
        if (path.status == tables::HoleStatus::cancelled) continue;
        HolePoints hole;
        hole.path = &path;
        const int count = static_cast<int>(std::ceil((path.end_depth - path.start_depth) / hole_point_step));
        for (int i = 0; i <= count; ++i)
            hole.points.push_back(paths::position_at(path, std::min(path.start_depth + i * hole_point_step, path.end_depth)));
        hole.middle = (hole.points.front() + hole.points.back()) / 2.0;
        for (const Eigen::Vector3d& point : hole.points) hole.radius = std::max(hole.radius, (point - hole.middle).norm());
        holes.push_back(std::move(hole));
    }
    return holes;
}

double distance_to(const HolePoints& hole, const Eigen::Vector3d& point) {
    double least = (point - hole.points.front()).norm();
    for (std::size_t k = 1; k < hole.points.size(); ++k) {
        const double reach = least + hole_point_step;  // from its lower end no part of a segment lies farther than a step
        if ((point - hole.points[k]).squaredNorm() > reach * reach) continue;
        least = std::min(least, base::distance_to_segment(point, hole.points[k - 1], hole.points[k]));
    }
    return least;
}

}  // namespace selvage::planning
