#include "drawing/label_places.h"

#include "drawing/clipping.h"

#include <algorithm>
#include <cmath>

namespace selvage::drawing {

namespace {

// A direction from the point, what it costs, and how the words are set there.
struct Direction {
    double x, y;
    double cost;
    Anchor anchor;
};

constexpr double diagonal = 0.70710678118654752;

// The eight of the rose, right and above first, and between them four beside the point that slide the words up or down.
constexpr double slant = 0.35, flat = 0.94;
constexpr Direction directions[] = {
    {diagonal, diagonal, 0.0, Anchor::left}, {1.0, 0.0, 0.2, Anchor::left},
    {flat, slant, 0.3, Anchor::left},        {-diagonal, diagonal, 0.5, Anchor::right},
    {flat, -slant, 0.5, Anchor::left},       {-1.0, 0.0, 0.6, Anchor::right},
    {-flat, slant, 0.7, Anchor::right},      {diagonal, -diagonal, 0.7, Anchor::left},
    {-flat, -slant, 0.8, Anchor::right},     {-diagonal, -diagonal, 0.9, Anchor::right},
    {0.0, 1.0, 1.0, Anchor::centre},         {0.0, -1.0, 1.2, Anchor::centre},
};

constexpr double cost_of_far = 1.5;
constexpr double cost_of_soft_mm = 0.15;  // a soft line along a whole label costs more than a worse place
// Another point hardly farther than the own: whose label is it? One that is nearer takes it.
constexpr double cost_of_other_point = 6.0, cost_of_nearer_point = 20.0;
constexpr double hardly_farther = 2.0;  // times the own distance

// Where a stretch of that length starts when it stands before, about or behind a place.
double start_of(double direction, double at, double gap, double length) {
    if (direction > 0.0) return at + direction * gap;
    if (direction < 0.0) return at + direction * gap - length;
    return at - length / 2.0;
}

// Words read on sideways: a sign before or after them seems half as far.
double seeming_distance(const Box& words, const Point& p) {
    const double dx = std::max({words.left - p.x, p.x - words.right, 0.0}),
                 dy = std::max({words.bottom - p.y, p.y - words.top, 0.0});
    return length_of(dx / 2.0, dy);
}

// Of something that is not the own, so many times as far as it.
double cost_of_other(double times_as_far) {
    if (times_as_far < 1.0) return cost_of_nearer_point;
    return cost_of_other_point * std::max(0.0, (hardly_farther - times_as_far) / (hardly_farther - 1.0));
}

}  // namespace

double cost_of_other_points(const Box& words, double own_distance, const std::vector<Point>& others) {
    double cost = 0.0;
    const Box near = grown(words, 2.0 * hardly_farther * own_distance);
    for (const Point& p : others) {
        if (p.x < near.left || p.x > near.right || p.y < near.bottom || p.y > near.top) continue;
        cost += cost_of_other(seeming_distance(words, p) / own_distance);
    }
    return cost;
}

double cost_of_other_lines(const Box& words, double own_distance, const std::vector<Segment>& others) {
    double dearest = 0.0;  // a line comes in many pieces
    const Box near = grown(words, hardly_farther * own_distance);
    for (const Segment& line : others) {
        if (std::max(line.a.x, line.b.x) < near.left || std::min(line.a.x, line.b.x) > near.right ||
            std::max(line.a.y, line.b.y) < near.bottom || std::min(line.a.y, line.b.y) > near.top)
            continue;
        dearest = std::max(dearest, cost_of_other(distance(line, words) / own_distance));
    }
    return dearest;
}

Box kept_apart(const Box& words, double apart_mm) {
    return {words.left - 2.0 * apart_mm, words.bottom - apart_mm, words.right + 2.0 * apart_mm, words.top + apart_mm};
}

bool within(const Box& inner, const Box& outer) {
    return inner.left >= outer.left && inner.right <= outer.right && inner.bottom >= outer.bottom && inner.top <= outer.top;
}

std::vector<Place> places_beside(const Label& label, const Point& at, const LabelSize& size,
                                 const std::vector<Point>& other_points, const std::vector<Segment>& other_lines,
                                 const ObstacleMap& map, const LabelRules& rules) {
    std::vector<Place> places;
    for (const double off : {rules.near_mm, rules.far_mm}) {
        for (const Direction& direction : directions) {
            const double gap = label.clear_mm + off;
            const bool sliding = std::abs(direction.y) == slant;
            const double left = start_of(direction.x, at.x, gap, size.width);
            const double bottom = sliding ? at.y - size.height / 2.0 + std::copysign(size.height / 4.0 + gap / 4.0, direction.y)
                                          : start_of(direction.y, at.y, gap, size.height);
            const Box box{left, bottom, left + size.width, bottom + size.height};
            if (!within(box, rules.window) || map.covers(box)) continue;
            const double cost = direction.cost + (off > rules.near_mm ? cost_of_far : 0.0) +
                                label.soft_weight * cost_of_soft_mm * map.soft_length(box) +
                                label.foreign_weight * cost_of_other_points(box, seeming_distance(box, at), other_points) +
                                cost_of_other_lines(box, distance(at, box), other_lines);
            places.push_back({box, direction.anchor, cost});
        }
    }
    std::stable_sort(places.begin(), places.end(), [](const Place& a, const Place& b) { return a.cost < b.cost; });
    return places;
}

}  // namespace selvage::drawing
