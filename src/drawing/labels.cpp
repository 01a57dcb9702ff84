#include "drawing/labels.h"

#include "base/random.h"
#include "drawing/clipping.h"
#include "drawing/label_choice.h"
#include "drawing/label_layout.h"
#include "drawing/label_leaders.h"
#include "drawing/label_obstacles.h"
#include "drawing/label_places.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>
#include <optional>

namespace selvage::drawing {

namespace {

// What it costs not to stand beside the point, against places that cost 0 to about 5: a more important label pushes several less
// important ones away, a worse place never does.
double cost_of_leaving(int priority) { return 10.0 * (1.0 + std::max(priority, 0)); }

// Such a mark keeps farther from others than words do, so that two are not read as one, mm.
constexpr double marks_apart_mm = 1.5;

// Against places beside the point (0 to about 5), in mm of a leader: having one at all, and standing in the side list.
constexpr double cost_of_any_leader = 8.0, cost_of_listing = 100.0;
constexpr double never = 1e6;

// A number or a short line that costs more beside its point has a leader, this long at most, from one of the best of its points.
constexpr double doubtful_mark = 5.0, mark_leader_mm = 14.0;
constexpr std::size_t most_led_points = 6;

// Points farther than this from a label beside its own are never about as near, mm.
constexpr double beside_reach_mm = 12.0;

// More places of one label than this hardly help, and all pairs of neighbours' places are compared.
constexpr std::size_t most_places = 32;

// Each further point of a line, against the places beside one.
constexpr double cost_of_next_point = 0.3;

// How often some labels are taken off and set again, and how many at a time.
constexpr std::size_t rearrangements_per_label = 30, most_rearrangements = 400, rearranged_together = 5;

// Labels whose places on leaders are kept: a sheet of thousands would fill the memory.
constexpr std::size_t most_remembered = 500;

class Placer {
public:
    Placer(const std::vector<Label>& labels, const Obstacles& obstacles, const LabelRules& rules, const FontMetrics& fonts)
        : labels_(labels),
          rules_(rules),
          fonts_(fonts),
          obstacles_(with_points(labels, obstacles)),
          map_(rules.window, obstacles_),
          paper_(rules.window, obstacles_, words_clearance_mm) {
        for (const Label& label : labels) sizes_.push_back(size_of(label, rules, fonts));
        placed_.resize(labels.size());
        costs_.resize(labels.size());
        for (std::size_t i = 0; i < labels.size(); ++i) take_away(i);
        by_priority_.resize(labels.size());
        std::iota(by_priority_.begin(), by_priority_.end(), std::size_t{0});
        std::stable_sort(by_priority_.begin(), by_priority_.end(),
                         [&](std::size_t a, std::size_t b) { return labels[a].priority > labels[b].priority; });
    }

    PlacedLabels place() {
        place_beside();
        place_on_leaders();
        if (listed() > rules_.give_up_over) return {placed_, figures()};
        rearrange();
        place_numbers();
        return {placed_, figures()};
    }

private:
    static Box empty_at(const Point& at) { return {at.x, at.y, at.x, at.y}; }

    // The labelled points' symbols are kept clear too.
    static Obstacles with_points(const std::vector<Label>& labels, const Obstacles& obstacles) {
        Obstacles all = obstacles;
        for (const Label& label : labels) all.boxes.push_back(grown(empty_at(label.at), label.clear_mm));
        return all;
    }

    bool is_set(std::size_t i) const {
        return placed_[i].placing != Placing::listed || placed_[i].number > 0 || placed_[i].in_short;
    }

    // Everything set but one label.
    Occupied occupied_without(std::size_t left_out) const {
        Occupied occupied;
        for (std::size_t i = 0; i < placed_.size(); ++i) {
            if (i == left_out || !is_set(i)) continue;
            occupied.boxes.push_back(placed_[i].box);
            if (placed_[i].leader.size() == 2) occupied.leaders.push_back({placed_[i].leader[0], placed_[i].leader[1]});
        }
        return occupied;
    }

    // The other labels' points within reach of one at which a label stands.
    std::vector<Point> points_near(std::size_t label, const Point& at, double reach_mm) const {
        const double reach = reach_mm + sizes_[label].width;
        std::vector<Point> points;
        for (std::size_t i = 0; i < labels_.size(); ++i) {
            const double apart = length_of(labels_[i].at.x - at.x, labels_[i].at.y - at.y);
            if (i != label && apart > labels_[label].clear_mm && apart < reach) points.push_back(labels_[i].at);
        }
        for (const std::vector<Point>* others : {&obstacles_.points, &labels_[label].not_at})
            for (const Point& point : *others) {
                const double apart = length_of(point.x - at.x, point.y - at.y);
                if (apart > labels_[label].clear_mm && apart < reach) points.push_back(point);
            }
        return points;
    }

    // The lines that are not its own within reach of a point at which a label stands.
    std::vector<Segment> lines_near(std::size_t label, const Point& at) const {
        const double reach = beside_reach_mm + sizes_[label].width;
        const Box near{at.x - reach, at.y - reach, at.x + reach, at.y + reach};
        std::vector<Segment> lines;
        for (const Segment& line : labels_[label].not_along)
            if (std::max(line.a.x, line.b.x) > near.left && std::min(line.a.x, line.b.x) < near.right &&
                std::max(line.a.y, line.b.y) > near.bottom && std::min(line.a.y, line.b.y) < near.top)
                lines.push_back(line);
        return lines;
    }

    // Beside the point or, a little dearer each, beside the others that it may stand at; the best first.
    std::vector<Place> all_places_beside(std::size_t i) const {
        const Label& label = labels_[i];
        std::vector<Place> places = drawing::places_beside(label, label.at, sizes_[i], points_near(i, label.at, beside_reach_mm),
                                                           lines_near(i, label.at), map_, rules_);
        double cost = 0.0;
        for (const Point& at : label.also_at) {
            cost += cost_of_next_point;
            for (Place place : drawing::places_beside(label, at, sizes_[i], points_near(i, at, beside_reach_mm),
                                                      lines_near(i, at), map_, rules_)) {
                place.cost += cost;
                places.push_back(place);
            }
        }
        std::stable_sort(places.begin(), places.end(), [](const Place& a, const Place& b) { return a.cost < b.cost; });
        if (places.size() > most_places) places.resize(most_places);
        return places;
    }

    // 1: all labels beside their points, as many and as well as can be.
    void place_beside() {
        for (std::size_t i = 0; i < labels_.size(); ++i) places_.push_back(all_places_beside(i));
        const ChoiceProblem problem = problem_of_places();
        const auto choice = best_choice(problem);
        std::size_t first = 0;
        for (std::size_t i = 0; i < labels_.size(); ++i) {
            if (choice[i]) set_beside(i, places_[i][*choice[i] - first]);
            first += places_[i].size();
        }
    }

    ChoiceProblem problem_of_places() const {
        ChoiceProblem problem;
        std::vector<std::size_t> first;
        std::vector<Box> reach;
        for (std::size_t i = 0; i < labels_.size(); ++i) {
            first.push_back(problem.options.size());
            problem.cost_of_none.push_back(cost_of_leaving(labels_[i].priority));
            Box all = empty_at(labels_[i].at);
            for (const Place& place : places_[i]) {
                problem.options.push_back({i, is_good(i, place) ? place.cost : never, {}});
                all = united(all, place.box);
            }
            reach.push_back(kept_apart(all, rules_.apart_mm));
        }
        for (std::size_t i = 0; i < labels_.size(); ++i)
            for (std::size_t j = i + 1; j < labels_.size(); ++j) {
                if (!overlap(reach[i], reach[j])) continue;
                for (std::size_t a = 0; a < places_[i].size(); ++a)
                    for (std::size_t b = 0; b < places_[j].size(); ++b) {
                        if (!overlap(kept_apart(places_[i][a].box, rules_.apart_mm), places_[j][b].box)) continue;
                        problem.options[first[i] + a].conflicts.push_back(first[j] + b);
                        problem.options[first[j] + b].conflicts.push_back(first[i] + a);
                    }
            }
        return problem;
    }

    void set_beside(std::size_t i, const Place& place) {
        placed_[i] = {i, Placing::beside, place.box, place.anchor, {}, 0};
        costs_[i] = place.cost;
    }

    void set_on_leader(std::size_t i, const LedPlace& place) {
        placed_[i] = {i, Placing::leader, place.box, place.anchor, {place.leader.a, place.leader.b}, 0};
        costs_[i] = cost_of_any_leader + place.cost;
    }

    // 2: what found no place goes to the nearest free paper, on a leader.
    void place_on_leaders() {
        for (const std::size_t i : by_priority_)
            if (!is_set(i)) find_place(i);
    }

    std::size_t listed() const {
        std::size_t count = 0;
        for (std::size_t i = 0; i < labels_.size(); ++i) count += !is_set(i) && labels_[i].may_be_listed ? 1 : 0;
        return count;
    }

    // Takes a label that stands away from its point and those nearest to it off the sheet and sets them again in another order,
    // if that makes the whole better; over and over.
    void rearrange() {
        base::RandomStream random("order of labels", {labels_.size()});
        const std::size_t steps = std::min(most_rearrangements, rearrangements_per_label * away_from_point().size());
        for (std::size_t step = 0; step < steps; ++step) {
            const std::vector<std::size_t> away = away_from_point();
            if (away.empty()) return;
            std::vector<std::size_t> group = with_neighbours(away[random.below(away.size())]);
            std::vector<PlacedLabel> before;
            double cost_before = 0.0, cost = 0.0;
            for (const std::size_t i : group) {
                before.push_back(placed_[i]);
                cost_before += costs_[i];
            }
            const std::vector<double> costs_before = costs_;
            const std::vector<std::size_t> as_it_was = group;
            for (const std::size_t i : group) take_away(i);
            for (std::size_t left = group.size(); left > 1; --left) std::swap(group[left - 1], group[random.below(left)]);
            for (const std::size_t i : group) {
                find_place(i);
                cost += costs_[i];
            }
            constexpr double least_gain = 1e-6;
            if (cost < cost_before - least_gain) continue;
            for (std::size_t n = 0; n < as_it_was.size(); ++n) placed_[as_it_was[n]] = before[n];
            costs_ = costs_before;
        }
    }

    std::vector<std::size_t> away_from_point() const {
        std::vector<std::size_t> away;
        for (std::size_t i = 0; i < placed_.size(); ++i)
            if (placed_[i].placing != Placing::beside && labels_[i].may_lead) away.push_back(i);
        return away;
    }

    std::vector<std::size_t> with_neighbours(std::size_t label) const {
        std::vector<std::size_t> order(labels_.size());
        std::iota(order.begin(), order.end(), std::size_t{0});
        const auto distance_to = [&](std::size_t i) {
            return length_of(labels_[i].at.x - labels_[label].at.x, labels_[i].at.y - labels_[label].at.y);
        };
        std::stable_sort(order.begin(), order.end(),
                         [&](std::size_t a, std::size_t b) { return distance_to(a) < distance_to(b); });
        order.resize(std::min(order.size(), rearranged_together));
        return order;
    }

    void take_away(std::size_t i) {
        placed_[i] = {i, Placing::listed, empty_at(labels_[i].at), Anchor::left, {}, 0};
        costs_[i] = cost_of_listing + cost_of_leaving(labels_[i].priority);
    }

    void find_place(std::size_t i) {
        const Occupied occupied = occupied_without(i);
        const auto beside = [&](bool good) {
            for (const Place& place : places_[i]) {
                if (is_good(i, place) != good ||
                    place.cost >= std::min(labels_[i].worst_place, cost_of_leaving(labels_[i].priority)))
                    continue;
                if (!is_free(place.box, occupied, rules_.apart_mm)) continue;
                set_beside(i, place);
                return true;
            }
            return false;
        };
        if (beside(true) || !labels_[i].may_lead) return;
        if (const auto place = place_on_leader(labels_[i], sizes_[i], leader_places_of(i), map_, occupied, rules_))
            set_on_leader(i, *place);
        else
            beside(false);
    }

    const LeaderPlaces& leader_places_of(std::size_t i) {
        const auto found = on_leader_.find(i);
        if (found != on_leader_.end()) return found->second;
        if (on_leader_.size() >= most_remembered) on_leader_.clear();
        return on_leader_
            .emplace(i, leader_places(labels_[i], sizes_[i], points_near(i, labels_[i].at, rules_.leader_max_mm), map_, paper_,
                                      rules_))
            .first->second;
    }

    // A worse place beside the point than this gives way to a leader, where the label may have one.
    bool is_good(std::size_t i, const Place& place) const {
        return place.cost < (labels_[i].may_lead ? cost_of_any_leader : labels_[i].worst_place);
    }

    // 3: for the rest the short line or a number at the point, or where its label rather has it; its words go to the side list.
    void place_numbers() {
        for (const std::size_t i : by_priority_)
            if (!is_set(i) && labels_[i].may_be_listed && !labels_[i].short_line.text.empty())
                placed_[i].in_short = set_mark(i, size_of(in_short(labels_[i]), rules_, fonts_));
        std::size_t number = 0;
        for (std::size_t i = 0; i < labels_.size(); ++i)
            if (!is_set(i) && labels_[i].may_be_listed && set_mark(i, size_of_number(number + 1, rules_, fonts_)))
                placed_[i].number = ++number;
    }

    // Of a listed label: what stands at its point.
    bool set_mark(std::size_t i, const LabelSize& size) {
        const Occupied occupied = occupied_without(i);
        const std::vector<Point> own_point{labels_[i].at};
        const std::vector<Point>& points = labels_[i].number_at.empty() ? own_point : labels_[i].number_at;
        const std::optional<Place> beside = mark_beside(i, size, points, occupied);
        const std::optional<LedPlace> led =
            beside && beside->cost < doubtful_mark ? std::nullopt : mark_on_leader(i, size, points, occupied);
        if (!beside && !led) return false;
        placed_[i].box = led ? led->box : beside->box;
        if (led) placed_[i].leader = {led->leader.a, led->leader.b};
        return true;
    }

    std::optional<Place> mark_beside(std::size_t i, const LabelSize& size, const std::vector<Point>& points,
                                     const Occupied& occupied) const {
        LabelRules close = rules_;
        close.near_mm = rules_.near_mm / 2.0;
        std::optional<Place> best;
        for (const Point& at : points)
            for (const Place& place : drawing::places_beside(labels_[i], at, size, points_near(i, at, beside_reach_mm),
                                                             lines_near(i, at), map_, close))
                if ((!best || place.cost < best->cost) && is_free(place.box, occupied, marks_apart_mm)) best = place;
        return best;
    }

    // Where a mark beside its line could be a neighbour's, it has a short leader.
    std::optional<LedPlace> mark_on_leader(std::size_t i, const LabelSize& size, const std::vector<Point>& points,
                                           const Occupied& occupied) const {
        LabelRules close = rules_;
        close.leader_max_mm = mark_leader_mm;
        std::optional<LedPlace> best;
        for (std::size_t n = 0; n < std::min(points.size(), most_led_points); ++n) {
            Label label = labels_[i];
            label.at = points[n];
            label.head_symbol.clear();
            const LeaderPlaces choice = leader_places(label, size, points_near(i, label.at, mark_leader_mm), map_, paper_, close);
            const std::optional<LedPlace> place = place_on_leader(label, size, choice, map_, occupied, close);
            if (place && (!best || place->cost < best->cost)) best = place;
        }
        return best;
    }

    LabelFigures figures() const {
        LabelFigures figures;
        figures.wanted = labels_.size();
        double length = 0.0;
        for (std::size_t i = 0; i < labels_.size(); ++i) {
            const PlacedLabel& placed = placed_[i];
            if (placed.placing == Placing::beside) ++figures.beside;
            if (placed.placing == Placing::listed && labels_[i].may_be_listed) ++figures.listed;
            if (placed.placing == Placing::leader) {
                ++figures.on_leaders;
                const double each = length_of(placed.leader[1].x - placed.leader[0].x, placed.leader[1].y - placed.leader[0].y);
                length += each;
                figures.leader_longest_mm = std::max(figures.leader_longest_mm, each);
            }
            count_faults(i, figures);
        }
        if (figures.on_leaders > 0) figures.leader_mean_mm = length / static_cast<double>(figures.on_leaders);
        return figures;
    }

    // Counted from what was placed, not from how: both must be 0.
    void count_faults(std::size_t i, LabelFigures& figures) const {
        if (!is_set(i)) return;
        if (map_.covers(placed_[i].box)) ++figures.overlaps;
        for (std::size_t j = 0; j < labels_.size(); ++j) {
            if (j == i || !is_set(j)) continue;
            if (j > i && overlap(placed_[i].box, placed_[j].box)) ++figures.overlaps;
            if (placed_[i].leader.size() != 2) continue;
            const Segment leader{placed_[i].leader[0], placed_[i].leader[1]};
            if (touches(leader, placed_[j].box)) ++figures.crossings;
            if (j > i && placed_[j].leader.size() == 2 && crossing(leader, {placed_[j].leader[0], placed_[j].leader[1]}))
                ++figures.crossings;
        }
    }

    const std::vector<Label>& labels_;
    const LabelRules& rules_;
    const FontMetrics& fonts_;
    const Obstacles obstacles_;
    const ObstacleMap map_;
    const FreePaper paper_;
    std::vector<LabelSize> sizes_;
    std::vector<std::vector<Place>> places_;
    std::map<std::size_t, LeaderPlaces> on_leader_;  // of the labels that needed them last
    std::vector<PlacedLabel> placed_;
    std::vector<double> costs_;  // of each label as it is placed
    std::vector<std::size_t> by_priority_;
};

}  // namespace

PlacedLabels place_labels(const std::vector<Label>& labels, const Obstacles& obstacles, const LabelRules& rules,
                          const FontMetrics& fonts) {
    return Placer(labels, obstacles, rules, fonts).place();
}

}  // namespace selvage::drawing
