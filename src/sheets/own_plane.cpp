#include "sheets/own_plane.h"

#include <algorithm>
#include <cmath>

namespace selvage::sheets {

SectionSet own_plane(const paths::Path& path, double to, const SectionSet& pack) {
    constexpr double least_run = 1.0, step = 5.0, beside = 0.5;  // m
    const Eigen::Vector3d start = paths::position_at(path, path.start_depth);
    const Eigen::Vector3d run = paths::position_at(path, to) - start;
    const bool upright = run.head<2>().norm() < least_run;
    SectionSet set;
    set.base = upright ? pack.base : section_frame(base::direction_of(run).azimuth, start);
    set.base.origin = Eigen::Vector3d(start.x(), start.y(), 0.0);
    set.spacing = pack.spacing;
    for (double depth = path.start_depth; depth < to + step; depth += step)
        set.spacing =
            std::max(set.spacing, 2.0 * (std::abs(set.base.offset(paths::position_at(path, std::min(depth, to)))) + beside));
    set.first_number = 0;
    set.of_pack = &pack;
    set.sections.push_back({0, path.hole, set.base, set.spacing / 2.0});
    return set;
}

}  // namespace selvage::sheets
