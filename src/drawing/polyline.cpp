#include "drawing/polyline.h"

#include "drawing/clipping.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <utility>

namespace selvage::drawing {

namespace {

double apart(const Point& a, const Point& b) { return length_of(b.x - a.x, b.y - a.y); }

Point between(const Point& a, const Point& b, double share) { return {a.x + share * (b.x - a.x), a.y + share * (b.y - a.y)}; }

// Keeps, between two kept points, the one farthest from their chord while it is farther than the tolerance.
void keep_between(const std::vector<Point>& line, std::size_t first, std::size_t last, double tolerance,
                  std::vector<bool>& kept) {
    std::vector<std::pair<std::size_t, std::size_t>> open{{first, last}};
    while (!open.empty()) {
        const auto [from, to] = open.back();
        open.pop_back();
        double farthest = tolerance;
        std::size_t at = from;
        for (std::size_t i = from + 1; i < to; ++i) {
            const double off = distance(line[i], {line[from], line[to]});
            if (off > farthest) {
                farthest = off;
                at = i;
            }
        }
        if (at == from) continue;
        kept[at] = true;
        open.emplace_back(from, at);
        open.emplace_back(at, to);
    }
}

struct Direction {
    double x, y;
};

Direction direction_of(const Point& a, const Point& b) {
    const double length = apart(a, b);
    return length > 0.0 ? Direction{(b.x - a.x) / length, (b.y - a.y) / length} : Direction{1.0, 0.0};
}

std::vector<Point> without_repeats(const std::vector<Point>& line) {
    std::vector<Point> out;
    for (const Point& p : line)
        if (out.empty() || apart(out.back(), p) > 0.0) out.push_back(p);
    return out;
}

}  // namespace

double length_of(const std::vector<Point>& line) {
    double length = 0.0;
    for (std::size_t i = 1; i < line.size(); ++i) length += apart(line[i - 1], line[i]);
    return length;
}

PointAlong point_along(const std::vector<Point>& line, double along) {
    assert(!line.empty());
    double left = std::max(along, 0.0);
    PointAlong last{line.front(), 1.0, 0.0};
    for (std::size_t i = 1; i < line.size(); ++i) {
        const double length = apart(line[i - 1], line[i]);
        if (!(length > 0.0)) continue;
        const Direction direction = direction_of(line[i - 1], line[i]);
        if (left <= length) return {between(line[i - 1], line[i], left / length), direction.x, direction.y};
        left -= length;
        last = {line[i], direction.x, direction.y};
    }
    return last;
}

std::vector<Point> part_along(const std::vector<Point>& line, double from, double to) {
    std::vector<Point> part{point_along(line, from).at};
    double along = 0.0;
    for (std::size_t i = 1; i + 1 < line.size(); ++i) {
        along += std::hypot(line[i].x - line[i - 1].x, line[i].y - line[i - 1].y);
        if (along > from && along < to) part.push_back(line[i]);
    }
    part.push_back(point_along(line, to).at);
    return part;
}

std::vector<Point> simplified(const std::vector<Point>& line, double tolerance) {
    if (line.size() < 3) return line;
    std::vector<bool> kept(line.size(), false);
    kept.front() = kept.back() = true;
    keep_between(line, 0, line.size() - 1, tolerance, kept);
    std::vector<Point> out;
    for (std::size_t i = 0; i < line.size(); ++i)
        if (kept[i]) out.push_back(line[i]);
    return out;
}

std::vector<Point> rounded(const std::vector<Point>& line, bool closed, double reach,
                           const std::function<bool(const Point&)>& may_pass) {
    std::vector<Point> corners = without_repeats(line);
    const std::size_t count = corners.size();
    if (count < 3 || !(reach > 0.0)) return corners;
    constexpr int steps = 4;
    std::vector<Point> out;
    if (!closed) out.push_back(corners.front());
    for (std::size_t i = closed ? 0 : 1; i < (closed ? count : count - 1); ++i) {
        const Point &before = corners[(i + count - 1) % count], &corner = corners[i], &after = corners[(i + 1) % count];
        const double room_before = apart(before, corner), room_after = apart(corner, after);
        const Point start = between(corner, before, std::min(reach, room_before / 2) / std::max(room_before, 1e-12));
        const Point end = between(corner, after, std::min(reach, room_after / 2) / std::max(room_after, 1e-12));
        const auto arc = [&](double t) { return between(between(start, corner, t), between(corner, end, t), t); };
        if (may_pass && !may_pass(arc(0.5))) {
            out.push_back(corner);
            continue;
        }
        for (int step = 0; step <= steps; ++step) out.push_back(arc(static_cast<double>(step) / steps));
    }
    if (!closed) out.push_back(corners.back());
    return without_repeats(out);
}

}  // namespace selvage::drawing
