#include "planning/told_by_neighbours.h"

#include "paths/locate.h"

#include <algorithm>
#include <cmath>
#include <tuple>
#include <utility>

namespace selvage::planning {

namespace {

constexpr double one_danger = 15.0;  // m of depth that is told as one; common practice, no source

// Something that a neighbour met, across from the hole.
struct Met {
    const Surroundings::Event* event = nullptr;
    double from = 0.0, to = 0.0, away = 0.0;  // m
};

const PlaceOnHole& nearest_place(const std::vector<PlaceOnHole>& places, const Eigen::Vector3d& point) {
    return *std::min_element(places.begin(), places.end(), [&](const PlaceOnHole& a, const PlaceOnHole& b) {
        return (a.point - point).squaredNorm() < (b.point - point).squaredNorm();
    });
}

std::vector<Met> met_near(const paths::Path& path, const std::vector<PlaceOnHole>& places, const Surroundings& surroundings) {
    std::vector<Met> all;
    for (const Surroundings::Event& event : surroundings.events) {
        if (event.hole == path.hole) continue;
        const PlaceOnHole &top = nearest_place(places, event.top), &bottom = nearest_place(places, event.bottom);
        const double away = std::min((top.point - event.top).norm(), (bottom.point - event.bottom).norm());
        if (away <= told_within)
            all.push_back({&event, std::min(top.depth, bottom.depth), std::max(top.depth, bottom.depth), away});
    }
    std::stable_sort(all.begin(), all.end(), [](const Met& a, const Met& b) {
        return std::tie(a.event->what, a.from) < std::tie(b.event->what, b.from);
    });
    return all;
}

Danger danger_of(std::vector<Met> together, const std::vector<PlaceOnHole>& places) {
    Danger danger;
    danger.what = together.front().event->what;
    danger.from = together.front().from;
    for (const Met& met : together) danger.to = std::max(danger.to, met.to);
    std::stable_sort(together.begin(), together.end(), [](const Met& a, const Met& b) { return a.away < b.away; });
    danger.nearest = together.front().away;
    danger.from = std::max(danger.from - *danger.nearest, places.front().depth);
    danger.to = std::min(danger.to + *danger.nearest, places.back().depth);
    for (const Met& met : together)
        if (std::find(danger.seen_in.begin(), danger.seen_in.end(), met.event->hole) == danger.seen_in.end())
            danger.seen_in.push_back(met.event->hole);
    return danger;
}

}  // namespace

std::vector<PlaceOnHole> places_of(const paths::Path& path, double from, double to) {
    constexpr double step = 1.0;  // m
    std::vector<PlaceOnHole> places;
    const int count = std::max(1, static_cast<int>(std::ceil((to - from) / step)));
    for (int i = 0; i <= count; ++i) {
        const double depth = from + (to - from) * i / count;
        places.push_back({depth, paths::position_at(path, depth)});
    }
    return places;
}

std::vector<Danger> told_by_neighbours(const paths::Path& path, const std::vector<PlaceOnHole>& places,
                                       const Surroundings& surroundings) {
    std::vector<Danger> dangers;
    std::vector<Met> open;
    double to = 0.0;  // of the open ones
    for (const Met& met : met_near(path, places, surroundings)) {
        const bool joins = !open.empty() && open.front().event->what == met.event->what &&
                           std::max(to, met.to) - open.front().from <= std::max(one_danger, to - open.front().from);
        if (!joins && !open.empty()) dangers.push_back(danger_of(std::exchange(open, {}), places));
        to = joins ? std::max(to, met.to) : met.to;
        open.push_back(met);
    }
    if (!open.empty()) dangers.push_back(danger_of(std::move(open), places));
    return dangers;
}

}  // namespace selvage::planning
