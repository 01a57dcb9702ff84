#include "planning/near_holes.h"

#include "planning/told_by_neighbours.h"

#include <algorithm>
#include <limits>

namespace selvage::planning {

namespace {

constexpr double parting_over = 10.0, least_parting = 0.15;  // m of the hole, and m that they part over it
constexpr double between = 0.5;                              // m: so much nearer it can be between two places
constexpr double drawn_together = 0.7;                       // of what their starts are apart

// Where two holes leave each other: how far down this one, and how far apart they start, m.
struct CommonStart {
    double depth = 0.0, apart = 0.0;
};

// The stretch below (of a wedge's parent, about) a common start; empty where there is none.
struct CommonStretch {
    double from = std::numeric_limits<double>::infinity(), to = -std::numeric_limits<double>::infinity();  // m
    double starts_apart = 0.0;                                                                             // m

    bool holds(double depth) const { return depth >= from && depth < to; }
};

struct Meeting {
    NearHole at;
    bool too_near = false;  // otherwise it only starts beside
};

bool is_another(const HolePoints& other, const paths::Path& path) { return other.path->hole != path.hole; }

// How many of the places, from the common start down, lie above where the two no longer part.
std::size_t common_places(const std::vector<PlaceOnHole>& places, const HolePoints& other) {
    std::vector<double> away;
    std::size_t before = 0;
    for (const PlaceOnHole& place : places) {
        away.push_back(distance_to(other, place.point));
        while (place.depth - places[before].depth > parting_over) ++before;
        const bool below = place.depth - places.front().depth > common_start;
        if (below && away.back() < away[before] + least_parting) return away.size() - 1;
    }
    return away.size();
}

// Their starts lie within one pad, or they are of one family of wedges and one leaves the other.
std::optional<CommonStart> common_start_of(const paths::Path& path, const HolePoints& other) {
    const Eigen::Vector3d start = paths::position_at(path, path.start_depth);
    if (other.path->parent == path.number && other.path->start_depth > path.start_depth)
        return CommonStart{other.path->start_depth, 0.0};
    const bool one_family = path.parent && (path.collar - other.path->collar).norm() < 0.01;
    const double away = one_family ? distance_to(other, start) : (other.points.front() - start).norm();
    return away < one_pad ? std::optional<CommonStart>(CommonStart{path.start_depth, away}) : std::nullopt;
}

CommonStretch common_stretch(const paths::Path& path, double to, const HolePoints& other) {
    CommonStretch stretch;
    const std::optional<CommonStart> start = common_start_of(path, other);
    if (!start || start->depth >= to) return stretch;
    const std::vector<PlaceOnHole> below = places_of(path, start->depth, to);
    const std::size_t count = common_places(below, other);
    stretch.from = start->depth > path.start_depth ? start->depth - common_start : start->depth;
    stretch.to = count < below.size() ? below[count].depth : to + common_start;
    stretch.starts_apart = start->apart;
    return stretch;
}

void keep_nearer(std::optional<NearHole>& nearest, const HolePoints& hole, double away, double depth) {
    if (!nearest || away < nearest->distance) nearest = NearHole{hole.path->hole, away, depth};
}

// No place of the hole lies nearer than this.
double least_away(const PlaceOnHole& place, const HolePoints& hole) { return (place.point - hole.middle).norm() - hole.radius; }

// The nearest place between two of the places looked at, which lie a metre or less apart.
std::optional<NearHole> between_places(const paths::Path& path, const PlaceOnHole& first, const PlaceOnHole& last,
                                       const HolePoints& other, std::optional<NearHole> found) {
    constexpr double either_side = 1.0, step = 0.05;  // m
    if (!found) return found;
    const double to = std::min(last.depth, found->depth + either_side);
    for (double depth = std::max(first.depth, found->depth - either_side); depth < to; depth += step)
        keep_nearer(found, other, distance_to(other, paths::position_at(path, depth)), depth);
    return found;
}

// Where the other hole comes nearer than the clearance.
std::optional<Meeting> meeting_of(const paths::Path& path, const std::vector<PlaceOnHole>& places, double clearance,
                                  const HolePoints& other) {
    const bool far_away = std::all_of(places.begin(), places.end(),
                                      [&](const PlaceOnHole& place) { return least_away(place, other) >= clearance + between; });
    if (far_away) return std::nullopt;
    const CommonStretch common = common_stretch(path, places.back().depth, other);
    std::optional<NearHole> counts, together;
    double clear_to = -std::numeric_limits<double>::infinity();  // m: nothing comes nearer faster than it is drilled
    for (const PlaceOnHole& place : places) {
        if (place.depth < clear_to) continue;
        const double away = distance_to(other, place.point);
        clear_to = place.depth + away - clearance - between;
        if (away < clearance + between) keep_nearer(common.holds(place.depth) ? together : counts, other, away, place.depth);
    }
    for (std::optional<NearHole>* each : {&counts, &together}) {
        *each = between_places(path, places.front(), places.back(), other, *each);
        if (*each && (*each)->distance >= clearance) each->reset();
    }
    const bool drawn = together && together->distance < drawn_together * common.starts_apart;
    if (drawn && (!counts || together->distance < counts->distance)) counts = together;
    if (counts) return Meeting{*counts, true};
    return together ? std::optional<Meeting>(Meeting{*together, false}) : std::nullopt;
}

std::optional<NearHole> nearest_of(const paths::Path& path, const std::vector<PlaceOnHole>& places,
                                   const std::vector<HolePoints>& holes) {
    std::optional<NearHole> nearest;
    for (const HolePoints& hole : holes) {
        if (!is_another(hole, path)) continue;
        double farther_to = -std::numeric_limits<double>::infinity();  // m: nothing comes nearer faster than it is drilled
        for (const PlaceOnHole& place : places) {
            if (place.depth < farther_to || (nearest && least_away(place, hole) >= nearest->distance)) continue;
            const double away = distance_to(hole, place.point);
            keep_nearer(nearest, hole, away, place.depth);
            farther_to = place.depth + away - nearest->distance;
        }
    }
    return nearest;
}

void mark_past_end(NearHole& hole, const paths::Path& path) { hole.past_end = is_past_end(path, hole.depth); }

void nearest_first(std::vector<NearHole>& holes) {
    std::stable_sort(holes.begin(), holes.end(), [](const NearHole& a, const NearHole& b) { return a.distance < b.distance; });
}

}  // namespace

bool is_past_end(const paths::Path& path, double depth) {
    constexpr double beside_end = 0.5;  // m
    return depth >= path.end_depth + beside_end;
}

NearHoles near_holes(const paths::Path& path, double from, double to, double clearance, const std::vector<paths::Path>& paths) {
    NearHoles near;
    near.nearest_from = from;
    if (!(to > from)) return near;
    const std::vector<PlaceOnHole> places = places_of(path, from, to);
    const std::vector<HolePoints> holes = hole_points(paths);
    for (const HolePoints& other : holes) {
        if (!is_another(other, path)) continue;
        const std::optional<CommonStart> start = common_start_of(path, other);
        if (start && start->depth <= path.start_depth) near.nearest_from = std::max(from, path.start_depth + common_start);
        if (const std::optional<Meeting> meeting = meeting_of(path, places, clearance, other))
            (meeting->too_near ? near.under : near.beside).push_back(meeting->at);
    }
    if (to > near.nearest_from) near.nearest = nearest_of(path, places_of(path, near.nearest_from, to), holes);
    for (std::vector<NearHole>* each : {&near.under, &near.beside})
        for (NearHole& hole : *each) mark_past_end(hole, path);
    if (near.nearest) mark_past_end(*near.nearest, path);
    nearest_first(near.under);
    nearest_first(near.beside);
    return near;
}

bool comes_too_near(const paths::Path& path, double from, double to, double clearance, const HolePoints& other) {
    if (!is_another(other, path) || !(to > from)) return false;
    const std::optional<Meeting> meeting = meeting_of(path, places_of(path, from, to), clearance, other);
    return meeting && meeting->too_near;
}

}  // namespace selvage::planning
