#include "planning/left_out_holes.h"

#include "base/segment.h"
#include "paths/locate.h"
#include "planning/told_by_neighbours.h"

#include <algorithm>
#include <limits>

namespace selvage::planning {

namespace {

constexpr double deviates = 0.05;  // of the depth down a hole

std::vector<const tables::Collar*> not_modelled(const tables::Records& records, const std::vector<paths::Path>& paths) {
    std::vector<const tables::Collar*> rows;
    for (const tables::Collar& collar : records.left_out) rows.push_back(&collar);
    for (const tables::Collar& collar : records.collars)
        if (paths::path_of(paths, collar.hole) == nullptr) rows.push_back(&collar);
    return rows;
}

// The straight line as its row gives it, from the collar down; of a wedge, which starts elsewhere, the collar alone.
std::vector<PlaceOnHole> given_places(const tables::Collar& row) {
    std::vector<PlaceOnHole> places{{0.0, row.position}};
    if (!row.azimuth || !row.dip || row.parent) return places;
    const Eigen::Vector3d down_hole = base::unit_vector({*row.azimuth, *row.dip});
    for (double depth = 1.0; depth <= row.depth; depth += 1.0) places.push_back({depth, row.position + depth * down_hole});
    return places;
}

NearHole nearest_on(const std::vector<PlaceOnHole>& path, const PlaceOnHole& place, const std::string& hole) {
    NearHole nearest{hole, std::numeric_limits<double>::infinity(), 0.0};
    for (std::size_t k = 1; k < path.size(); ++k) {
        const double away = base::distance_to_segment(place.point, path[k - 1].point, path[k].point);
        if (away < nearest.distance) nearest = {hole, away, path[k - 1].depth};
    }
    return nearest;
}

}  // namespace

std::vector<NearHole> near_left_out(const paths::Path& path, double from, double to, double clearance,
                                    const tables::Records& records, const std::vector<paths::Path>& paths) {
    std::vector<NearHole> near;
    if (!(to > from)) return near;
    const std::vector<PlaceOnHole> places = places_of(path, from, to);
    for (const tables::Collar* row : not_modelled(records, paths)) {
        if (row->status == tables::HoleStatus::cancelled || row->hole == path.hole) continue;
        const bool one_start = from <= path.start_depth && (row->position - places.front().point).norm() < one_pad;
        for (const PlaceOnHole& place : given_places(*row)) {
            const NearHole found = nearest_on(places, place, row->hole);
            if (found.distance >= clearance + deviates * place.depth && !(one_start && place.depth == 0.0)) continue;
            const auto same = std::find_if(near.begin(), near.end(), [&](const NearHole& one) { return one.hole == row->hole; });
            if (same == near.end())
                near.push_back(found);
            else if (found.distance < same->distance)
                *same = found;
        }
    }
    for (NearHole& hole : near) hole.past_end = is_past_end(path, hole.depth);
    std::stable_sort(near.begin(), near.end(), [](const NearHole& a, const NearHole& b) { return a.distance < b.distance; });
    return near;
}

}  // namespace selvage::planning
