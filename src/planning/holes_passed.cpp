#include "planning/holes_passed.h"

#include <algorithm>
#include <utility>

namespace selvage::planning {

namespace {

paths::Path straight_path(const Reach& hole) {
    paths::Path path;
    path.status = tables::HoleStatus::planned;
    path.collar = hole.collar;
    path.end_depth = hole.length;
    paths::Station start;
    start.direction = hole.direction;
    start.position = hole.collar;
    path.stations = {start};
    paths::settle(path.stations);
    return path;
}

}  // namespace

std::vector<NearestHole> holes_passed(const Reach& hole, double within, const std::vector<paths::Path>& paths) {
    const paths::Path straight = straight_path(hole);
    std::vector<NearestHole> passed;
    for (const paths::Path& other : paths)
        if (auto nearest = nearest_hole(straight, 0.0, hole.length, {other}); nearest && nearest->distance < within)
            passed.push_back(std::move(*nearest));
    std::stable_sort(passed.begin(), passed.end(),
                     [](const NearestHole& a, const NearestHole& b) { return a.distance < b.distance; });
    return passed;
}

}  // namespace selvage::planning
