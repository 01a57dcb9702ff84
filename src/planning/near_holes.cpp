#include "planning/near_holes.h"

#include "base/segment.h"
#include "planning/reach.h"
#include "planning/told_by_neighbours.h"

#include <algorithm>
#include <limits>
#include <utility>

namespace selvage::planning {

namespace {

constexpr double common_start = 30.0;                        // m of two holes
constexpr double parting_over = 10.0, least_parting = 0.15;  // m of the hole, and m that they part over it

bool is_another(const paths::Path& other, const paths::Path& path) {
    return other.hole != path.hole && other.status != tables::HoleStatus::cancelled;
}

double distance_to(const std::vector<Eigen::Vector3d>& line, const Eigen::Vector3d& point) {
    double least = line.empty() ? std::numeric_limits<double>::infinity() : (point - line.front()).norm();
    for (std::size_t k = 1; k < line.size(); ++k) least = std::min(least, base::distance_to_segment(point, line[k - 1], line[k]));
    return least;
}

// The places from the common start down to where the two no longer part: how many of them.
std::size_t common_places(const std::vector<PlaceOnHole>& places, const HolePoints& other) {
    std::vector<double> away;
    std::size_t before = 0;
    for (const PlaceOnHole& place : places) {
        away.push_back(distance_to(other.points, place.point));
        while (place.depth - places[before].depth > parting_over) ++before;
        const bool below = place.depth - places.front().depth > common_start;
        if (below && away.back() < away[before] + least_parting) return away.size() - 1;
    }
    return away.size();
}

// Depth of this path from which on another hole is necessarily near: their starts lie within one pad, or they are of one family
// of wedges and one leaves the other.
std::optional<double> shared_start(const paths::Path& path, const paths::Path& other, const HolePoints& points) {
    const Eigen::Vector3d start = paths::position_at(path, path.start_depth);
    if (other.parent == path.number && other.start_depth > path.start_depth) return other.start_depth;
    const bool one_family = path.parent && (path.collar - other.collar).norm() < 0.01;
    const double away =
        one_family ? distance_to(points.points, start) : (paths::position_at(other, other.start_depth) - start).norm();
    return away < one_pad ? std::optional<double>(path.start_depth) : std::nullopt;
}

void keep_nearer(std::optional<NearHole>& nearest, const std::string& hole, double away, double depth) {
    if (!nearest || away < nearest->distance) nearest = NearHole{hole, away, depth};
}

void nearest_first(std::vector<NearHole>& holes) {
    std::stable_sort(holes.begin(), holes.end(), [](const NearHole& a, const NearHole& b) { return a.distance < b.distance; });
}

}  // namespace

NearHoles near_holes(const paths::Path& path, double from, double to, double clearance, const std::vector<paths::Path>& paths) {
    NearHoles near;
    if (!(to > from)) return near;
    const std::vector<PlaceOnHole> places = places_of(path, from, to);
    const std::vector<HolePoints> all = hole_points(paths);
    for (std::size_t i = 0; i < paths.size(); ++i) {
        if (!is_another(paths[i], path)) continue;
        double common_from = to, common_to = from;  // m, empty where they have no common start
        if (const std::optional<double> start = shared_start(path, paths[i], all[i]); start && *start < to) {
            const std::vector<PlaceOnHole> below = places_of(path, *start, to);
            const std::size_t count = common_places(below, all[i]);
            common_from = *start > path.start_depth ? *start - common_start : *start;
            common_to = count < below.size() ? below[count].depth : to + common_start;
        }
        std::optional<NearHole> counts, together;
        for (const PlaceOnHole& place : places) {
            const bool common = place.depth >= common_from && place.depth < common_to;
            const double bound = (place.point - all[i].middle).norm() - all[i].radius;
            if (bound > clearance && (common || (near.nearest && bound > near.nearest->distance))) continue;
            keep_nearer(common ? together : counts, paths[i].hole, distance_to(all[i].points, place.point), place.depth);
        }
        if (counts) keep_nearer(near.nearest, counts->hole, counts->distance, counts->depth);
        if (counts && counts->distance < clearance)
            near.under.push_back(*counts);
        else if (together && together->distance < clearance)
            near.beside.push_back(*together);
    }
    nearest_first(near.under);
    nearest_first(near.beside);
    return near;
}

}  // namespace selvage::planning
