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
constexpr double cost_of_crossing = 4.0;       // a trace crossed
constexpr double cost_of_running_along = 8.0;  // nearly parallel to a trace through the point: hard to tell from it
constexpr double cost_of_soft_mm = 0.25;       // a soft line under the words
constexpr double sine_of_along = 0.30;

// The leader ends this far from words that have no head symbol, and keeps this far from other words.
constexpr double leader_gap_mm = 0.5;
constexpr double leader_clearance_mm = 0.3;

// A leader whose cosine is under this comes to a corner of the words, a flatter one to the side of their first line.
constexpr double steep = 0.5;

double apart(const Point& a, const Point& b) { return std::hypot(b.x - a.x, b.y - a.y); }

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

// Keeps the best of the places tried for one label.
class LeaderSearch {
public:
    LeaderSearch(const Label& label, const LabelSize& size, const std::vector<LeaderRay>& rays, const ObstacleMap& map,
                 const FreePaper& paper, const Occupied& occupied, const LabelRules& rules)
        : label_(label), size_(size), rays_(rays), map_(map), paper_(paper), occupied_(occupied), rules_(rules),
          head_(label.head_symbol.empty() ? 0.0 : label.head_mm / 2.0) {
        for (const LeaderRay& ray : rays) free_mm_.push_back(free_length(whole(label, ray, rules), ray.free_mm, occupied));
    }

    std::optional<LedPlace> search() {
        for (double length = first_length_mm; length <= rules_.leader_max_mm; length += length_step_mm) {
            if (best_ && length >= best_->cost) break;
            for (std::size_t i = 0; i < rays_.size(); ++i) {
                const LeaderRay& ray = rays_[i];
                if (length > free_mm_[i]) continue;
                const auto crossed = std::upper_bound(ray.crossed_mm.begin(), ray.crossed_mm.end(), length) - ray.crossed_mm.begin();
                const double cost = length + cost_of_crossing * static_cast<double>(crossed) + ray.cost;
                if (best_ && cost >= best_->cost) continue;
                // The words lie beyond the end of a flat leader, to either side of a steep one.
                for (const bool to_the_right : {true, false})
                    if (std::abs(ray.cosine) < steep || to_the_right == (ray.cosine > 0.0)) try_place(ray, length, to_the_right, cost);
            }
        }
        return best_;
    }

private:
    // The label set so that a leader of that length ends at its head symbol's edge, or just off its words.
    LedPlace set_at(const LeaderRay& ray, double length, bool to_the_right) const {
        const bool has_head = head_ > 0.0, at_side = has_head || std::abs(ray.cosine) >= steep;
        const Point end = along(label_, ray, label_.clear_mm + length), middle = along(label_, ray, label_.clear_mm + length + head_);
        const double lead_in = has_head ? head_ : at_side ? -leader_gap_mm : 0.0;  // of the box before the end
        const double left = to_the_right ? middle.x - lead_in : middle.x + lead_in - size_.width;
        const double top = at_side          ? middle.y + size_.first_line_middle
                           : ray.sine > 0.0 ? end.y + leader_gap_mm + size_.height
                                            : end.y - leader_gap_mm;
        return {{left, top - size_.height, left + size_.width, top},
                to_the_right ? Anchor::left : Anchor::right,
                {along(label_, ray, label_.clear_mm), end},
                0.0};
    }

    void try_place(const LeaderRay& ray, double length, bool to_the_right, double cost) {
        constexpr double own_edge_mm = 0.05;  // the leader may end at its own words' edge, not run over them
        LedPlace place = set_at(ray, length, to_the_right);
        if (!within(place.box, rules_.window) || !paper_.is_free(place.box) || !is_free(place.box, occupied_, rules_.apart_mm)) return;
        if (head_ == 0.0 && touches(place.leader, grown(place.box, -own_edge_mm))) return;
        place.cost = cost + cost_of_soft_mm * map_.soft_length(place.box);
        if (!best_ || place.cost < best_->cost) best_ = place;
    }

    const Label& label_;
    const LabelSize& size_;
    const std::vector<LeaderRay>& rays_;
    const ObstacleMap& map_;
    const FreePaper& paper_;
    const Occupied& occupied_;
    const LabelRules& rules_;
    const double head_;  // half the head symbol
    std::vector<double> free_mm_;  // of each ray
    std::optional<LedPlace> best_;
};

}  // namespace

bool is_free(const Box& box, const Occupied& occupied, double apart_mm) {
    const Box kept_clear = grown(box, apart_mm);
    for (const Box& other : occupied.boxes)
        if (overlap(kept_clear, other)) return false;
    for (const Segment& leader : occupied.leaders)
        if (touches(leader, grown(box, leader_clearance_mm))) return false;
    return true;
}

std::vector<LeaderRay> leader_rays(const Label& label, const ObstacleMap& map, const LabelRules& rules) {
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
            if (std::abs(ray.cosine * dy - ray.sine * dx) < sine_of_along * std::hypot(dx, dy)) ray.cost = cost_of_running_along;
        }
        rays.push_back(std::move(ray));
    }
    return rays;
}

std::optional<LedPlace> place_on_leader(const Label& label, const LabelSize& size, const std::vector<LeaderRay>& rays,
                                        const ObstacleMap& map, const FreePaper& paper, const Occupied& occupied,
                                        const LabelRules& rules) {
    return LeaderSearch(label, size, rays, map, paper, occupied, rules).search();
}

}  // namespace selvage::drawing
