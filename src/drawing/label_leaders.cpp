#include "drawing/label_leaders.h"

#include "drawing/clipping.h"
#include "drawing/label_places.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace selvage::drawing {

namespace {

constexpr double pi = 3.14159265358979323846;

// Ends of leaders are tried along so many rays from the point, at steps of half a line of type.
constexpr int ray_count = 96;
constexpr double first_length_mm = 4.0, length_step_mm = 2.0;

// What else a leader costs, in mm of its length.
constexpr double cost_of_crossing = 2.0;       // a trace crossed
constexpr double cost_of_running_along = 8.0;  // nearly parallel to a trace through the point: hard to tell from it
constexpr double cost_of_soft_mm = 0.3;        // a soft line under the words
constexpr double words_off_others_mm = 2.5;    // from the words to a point that is not theirs
constexpr double weight_of_others = 2.0;       // no leader is so short that it is worth standing at another's
constexpr double sine_of_along = 0.30;
constexpr double cost_of_over_others = 15.0;  // over the sign of another point, of which the own one is half covered

// The leader ends this far from words that have no head symbol, and keeps this far from other words.
constexpr double leader_gap_mm = 0.5;
constexpr double leader_clearance_mm = 0.3;

// A leader whose cosine is under this comes to a corner of the words, a flatter one to the side of their first line.
constexpr double steep = 0.5;

double apart(const Point& a, const Point& b) { return length_of(b.x - a.x, b.y - a.y); }

Point along(const Label& label, const LeaderRay& ray, double from_point) {
    return {label.at.x + ray.cosine * from_point, label.at.y + ray.sine * from_point};
}

Segment whole(const Label& label, const LeaderRay& ray, const LabelRules& rules) {
    return {along(label, ray, label.clear_mm), along(label, ray, label.clear_mm + rules.leader_max_mm)};
}

bool may_meet(const Segment& line, const Box& box) {
    return std::min(line.a.x, line.b.x) <= box.right && std::max(line.a.x, line.b.x) >= box.left &&
           std::min(line.a.y, line.b.y) <= box.top && std::max(line.a.y, line.b.y) >= box.bottom;
}

// The part of what has been placed that the label or its leader can reach at all.
Occupied within_reach(const Occupied& occupied, const Label& label, const LabelSize& size, const LabelRules& rules) {
    const double across = label.clear_mm + rules.leader_max_mm + size.width + label.head_mm + 2.0 * rules.apart_mm;
    const double up = label.clear_mm + rules.leader_max_mm + size.height + label.head_mm + rules.apart_mm;
    const Box reach{label.at.x - across, label.at.y - up, label.at.x + across, label.at.y + up};
    Occupied near;
    for (const Box& box : occupied.boxes)
        if (overlap(box, reach)) near.boxes.push_back(box);
    for (const Segment& leader : occupied.leaders)
        if (may_meet(leader, reach)) near.leaders.push_back(leader);
    return near;
}

// How far a leader comes among what has been placed.
double free_length(const Segment& ray, double so_far, const Occupied& occupied) {
    for (const Box& box : occupied.boxes) {
        const Box kept_clear = grown(box, leader_clearance_mm);
        if (!may_meet(ray, kept_clear)) continue;
        if (const auto part = clipped(ray, kept_clear)) so_far = std::min(so_far, apart(ray.a, part->a));
    }
    for (const Segment& leader : occupied.leaders)
        if (const auto at = crossing(ray, leader)) so_far = std::min(so_far, apart(ray.a, *at));
    return so_far;
}

double half_head(const Label& label) { return label.head_symbol.empty() ? 0.0 : label.head_mm / 2.0; }

// The label set so that a leader of that length ends at its head symbol's edge, or just off its words.
LedPlace set_at(const Label& label, const LabelSize& size, const LeaderRay& ray, const LeaderPlace& place) {
    const double head = half_head(label), length = label.clear_mm + place.length_mm;
    const bool has_head = head > 0.0, at_side = has_head || std::abs(ray.cosine) >= steep;
    const Point end = along(label, ray, length), middle = along(label, ray, length + head);
    const double lead_in = has_head ? head : at_side ? -leader_gap_mm : 0.0;  // of the box before the end
    const double left = place.to_the_right ? middle.x - lead_in : middle.x + lead_in - size.width;
    const double top = at_side          ? middle.y + size.first_line_middle
                       : ray.sine > 0.0 ? end.y + leader_gap_mm + size.height
                                        : end.y - leader_gap_mm;
    return {{left, top - size.height, left + size.width, top},
            place.to_the_right ? Anchor::left : Anchor::right,
            {along(label, ray, label.clear_mm), end},
            place.cost};
}

std::vector<LeaderRay> rays_from(const Label& label, const ObstacleMap& map, const LabelRules& rules) {
    const std::vector<Segment> traces = map.lines_near(label.at, label.clear_mm);
    std::vector<LeaderRay> rays;
    for (int i = 0; i < ray_count; ++i) {
        const double turn = 2.0 * pi * i / ray_count;
        LeaderRay ray{std::cos(turn), std::sin(turn), 0.0, {}, 0.0};
        const Segment line = whole(label, ray, rules);
        ray.free_mm = map.free_length(line);
        ray.crossed_mm = map.crossings({line.a, along(label, ray, label.clear_mm + ray.free_mm)});
        std::sort(ray.crossed_mm.begin(), ray.crossed_mm.end());
        for (const Segment& trace : traces) {
            const double dx = trace.b.x - trace.a.x, dy = trace.b.y - trace.a.y;
            if (std::abs(ray.cosine * dy - ray.sine * dx) < sine_of_along * length_of(dx, dy)) ray.cost = cost_of_running_along;
        }
        rays.push_back(std::move(ray));
    }
    return rays;
}

// The other points whose signs a leader would run over.
std::size_t points_under(const Label& label, const LeaderRay& ray, double length, const std::vector<Point>& others) {
    constexpr double sign_mm = 1.5;
    const Segment line{label.at, along(label, ray, label.clear_mm + length)};
    const auto is_under = [&](const Point& other) {
        const double off = (other.x - line.a.x) * ray.sine - (other.y - line.a.y) * ray.cosine;
        return std::abs(off) < sign_mm && distance(other, line) < sign_mm;
    };
    return static_cast<std::size_t>(std::count_if(others.begin(), others.end(), is_under));
}

}  // namespace

bool is_free(const Box& box, const Occupied& occupied, double apart_mm) {
    const Box kept_clear = kept_apart(box, apart_mm);
    for (const Box& other : occupied.boxes)
        if (overlap(kept_clear, other)) return false;
    const Box clear_of_leaders = grown(box, leader_clearance_mm);
    for (const Segment& leader : occupied.leaders)
        if (may_meet(leader, clear_of_leaders) && touches(leader, clear_of_leaders)) return false;
    return true;
}

LeaderPlaces leader_places(const Label& label, const LabelSize& size, const std::vector<Point>& others, const ObstacleMap& map,
                           const FreePaper& paper, const LabelRules& rules) {
    constexpr double own_edge_mm = 0.05;  // the leader may end at its own words' edge, not run over them
    LeaderPlaces all{rays_from(label, map, rules), {}};
    for (std::size_t i = 0; i < all.rays.size(); ++i) {
        const LeaderRay& ray = all.rays[i];
        const double longest = std::min(ray.free_mm, rules.leader_max_mm);
        const double over_others = cost_of_over_others * static_cast<double>(points_under(label, ray, longest, others));
        std::size_t crossed = 0;
        for (double length = first_length_mm; length <= longest; length += length_step_mm) {
            while (crossed < ray.crossed_mm.size() && ray.crossed_mm[crossed] <= length) ++crossed;
            const double cost = length + cost_of_crossing * static_cast<double>(crossed) + ray.cost + over_others;
            // The words lie beyond the end of a flat leader, to either side of a steep one.
            for (const bool to_the_right : {true, false}) {
                if (std::abs(ray.cosine) >= steep && to_the_right != (ray.cosine > 0.0)) continue;
                const LeaderPlace place{i, length, to_the_right, cost};
                const LedPlace set = set_at(label, size, ray, place);
                if (!within(set.box, rules.window) || !paper.is_free(set.box)) continue;
                if (half_head(label) == 0.0 && touches(set.leader, grown(set.box, -own_edge_mm))) continue;
                all.places.push_back(place);
                all.places.back().cost += weight_of_others * cost_of_other_points(set.box, words_off_others_mm, others);
            }
        }
    }
    std::stable_sort(all.places.begin(), all.places.end(),
                     [](const LeaderPlace& a, const LeaderPlace& b) { return a.cost < b.cost; });
    return all;
}

std::optional<LedPlace> place_on_leader(const Label& label, const LabelSize& size, const LeaderPlaces& choice,
                                        const ObstacleMap& map, const Occupied& occupied, const LabelRules& rules) {
    const Occupied near = within_reach(occupied, label, size, rules);
    constexpr double unknown = -1.0;
    std::vector<double> free_mm(choice.rays.size(), unknown);  // of each ray among what is placed
    std::optional<LedPlace> best;
    for (const LeaderPlace& place : choice.places) {
        if (best && place.cost >= best->cost) break;
        double& free = free_mm[place.ray];
        if (free != unknown && place.length_mm > free) continue;
        const LeaderRay& ray = choice.rays[place.ray];
        LedPlace set = set_at(label, size, ray, place);
        if (!is_free(set.box, near, rules.apart_mm)) continue;
        if (free == unknown) free = free_length(whole(label, ray, rules), ray.free_mm, near);
        if (place.length_mm > free) continue;
        set.cost += label.soft_weight * cost_of_soft_mm * map.soft_length(set.box);
        if (!best || set.cost < best->cost) best = set;
    }
    return best;
}

}  // namespace selvage::drawing
