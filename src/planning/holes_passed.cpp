#include "planning/holes_passed.h"

#include <limits>

namespace selvage::planning {

paths::Path straight_path(const Reach& hole) {
    paths::Path path;
    path.number = std::numeric_limits<std::size_t>::max();  // nobody's parent
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

NearHoles holes_passed(const Reach& hole, double within, const std::vector<paths::Path>& paths) {
    return near_holes(straight_path(hole), 0.0, hole.length, within, paths);
}

}  // namespace selvage::planning
