#include "drawing/clipping.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace selvage::drawing {

namespace {

Point between(const Point& a, const Point& b, double share) { return {a.x + share * (b.x - a.x), a.y + share * (b.y - a.y)}; }

// The shares of a segment that lie within a box (Liang & Barsky 1984).
struct Shares {
    double from = 0.0, to = 1.0;
};

std::optional<Shares> shares_within(const Segment& segment, const Box& box) {
    const double dx = segment.b.x - segment.a.x, dy = segment.b.y - segment.a.y;
    const std::array<double, 4> run{-dx, dx, -dy, dy};
    const std::array<double, 4> room{segment.a.x - box.left, box.right - segment.a.x, segment.a.y - box.bottom,
                                     box.top - segment.a.y};
    Shares shares;
    for (std::size_t side = 0; side < 4; ++side) {
        if (run[side] == 0.0) {
            if (room[side] < 0.0) return std::nullopt;
            continue;
        }
        const double share = room[side] / run[side];
        if (run[side] < 0.0)
            shares.from = std::max(shares.from, share);
        else
            shares.to = std::min(shares.to, share);
    }
    if (shares.from > shares.to) return std::nullopt;
    return shares;
}

// The shares of a segment that lie outside all boxes, in order.
std::vector<Shares> shares_outside(const Segment& segment, const std::vector<Box>& boxes) {
    std::vector<Shares> covered;
    for (const Box& box : boxes)
        if (const auto shares = shares_within(segment, box)) covered.push_back(*shares);
    std::sort(covered.begin(), covered.end(), [](const Shares& a, const Shares& b) { return a.from < b.from; });
    std::vector<Shares> outside;
    double at = 0.0;
    for (const Shares& next : covered) {
        if (next.from > at) outside.push_back({at, next.from});
        at = std::max(at, next.to);
    }
    if (at < 1.0) outside.push_back({at, 1.0});
    return outside;
}

// Appends a piece, joining it to the last one where it goes on from there.
void append_piece(std::vector<std::vector<Point>>& pieces, const Point& a, const Point& b, bool goes_on) {
    if (goes_on && !pieces.empty())
        pieces.back().push_back(b);
    else
        pieces.push_back({a, b});
}

// The polygon's part where keep(point) >= 0; `keep` is a signed distance to one edge of the box.
template <typename Keep>
std::vector<Point> half_plane(const std::vector<Point>& polygon, Keep keep) {
    std::vector<Point> out;
    for (std::size_t i = 0; i < polygon.size(); ++i) {
        const Point &a = polygon[i], &b = polygon[(i + 1) % polygon.size()];
        const double at_a = keep(a), at_b = keep(b);
        if (at_a >= 0.0) out.push_back(a);
        if ((at_a < 0.0) != (at_b < 0.0)) out.push_back(between(a, b, at_a / (at_a - at_b)));
    }
    return out;
}

}  // namespace

std::optional<Segment> clipped(const Segment& segment, const Box& box) {
    const auto shares = shares_within(segment, box);
    if (!shares) return std::nullopt;
    return Segment{shares->from > 0.0 ? between(segment.a, segment.b, shares->from) : segment.a,
                   shares->to < 1.0 ? between(segment.a, segment.b, shares->to) : segment.b};
}

std::vector<std::vector<Point>> clipped_line(const std::vector<Point>& line, const Box& box) {
    std::vector<std::vector<Point>> pieces;
    bool goes_on = false;
    for (std::size_t i = 1; i < line.size(); ++i) {
        const Segment segment{line[i - 1], line[i]};
        const auto shares = shares_within(segment, box);
        // A segment that only touches a corner from outside leaves nothing.
        if (!shares || (shares->from == shares->to && shares->from != 0.0 && shares->to != 1.0)) {
            goes_on = false;
            continue;
        }
        const auto part = clipped(segment, box);
        append_piece(pieces, part->a, part->b, goes_on && shares->from == 0.0);
        goes_on = shares->to == 1.0;
    }
    return pieces;
}

std::vector<std::vector<Point>> line_outside(const std::vector<Point>& line, const std::vector<Box>& boxes) {
    std::vector<std::vector<Point>> pieces;
    bool goes_on = false;
    for (std::size_t i = 1; i < line.size(); ++i) {
        const Segment segment{line[i - 1], line[i]};
        const std::vector<Shares> parts = shares_outside(segment, boxes);
        for (const Shares& part : parts) {
            append_piece(pieces, between(segment.a, segment.b, part.from), between(segment.a, segment.b, part.to),
                         goes_on && part.from == 0.0);
            goes_on = part.to == 1.0;
        }
        if (parts.empty()) goes_on = false;
    }
    return pieces;
}

std::vector<Point> clipped_polygon(const std::vector<Point>& polygon, const Box& box) {
    std::vector<Point> out = half_plane(polygon, [&](const Point& p) { return p.x - box.left; });
    out = half_plane(out, [&](const Point& p) { return box.right - p.x; });
    out = half_plane(out, [&](const Point& p) { return p.y - box.bottom; });
    return half_plane(out, [&](const Point& p) { return box.top - p.y; });
}

std::optional<Point> crossing(const Segment& first, const Segment& second) {
    const double ax = first.b.x - first.a.x, ay = first.b.y - first.a.y;
    const double bx = second.b.x - second.a.x, by = second.b.y - second.a.y;
    const double turn = ax * by - ay * bx;
    if (turn == 0.0) return std::nullopt;
    const double cx = second.a.x - first.a.x, cy = second.a.y - first.a.y;
    const double along_first = (cx * by - cy * bx) / turn, along_second = (cx * ay - cy * ax) / turn;
    if (along_first < 0.0 || along_first > 1.0 || along_second < 0.0 || along_second > 1.0) return std::nullopt;
    return between(first.a, first.b, along_first);
}

bool touches(const Segment& segment, const Box& box) { return shares_within(segment, box).has_value(); }

double distance(const Point& point, const Segment& segment) {
    const double dx = segment.b.x - segment.a.x, dy = segment.b.y - segment.a.y;
    const double squared = dx * dx + dy * dy;
    const double share =
        squared > 0.0 ? std::clamp(((point.x - segment.a.x) * dx + (point.y - segment.a.y) * dy) / squared, 0.0, 1.0) : 0.0;
    const Point nearest = between(segment.a, segment.b, share);
    return length_of(point.x - nearest.x, point.y - nearest.y);
}

double distance(const Point& point, const Box& box) {
    return length_of(std::max({box.left - point.x, point.x - box.right, 0.0}),
                     std::max({box.bottom - point.y, point.y - box.top, 0.0}));
}

double distance(const Segment& segment, const Box& box) {
    if (touches(segment, box)) return 0.0;
    double least = std::min(distance(segment.a, box), distance(segment.b, box));
    for (const Point& corner :
         {Point{box.left, box.bottom}, Point{box.right, box.bottom}, Point{box.left, box.top}, Point{box.right, box.top}})
        least = std::min(least, distance(corner, segment));
    return least;
}

bool inside(const Point& point, const std::vector<std::vector<Point>>& rings) {
    bool odd = false;
    for (const std::vector<Point>& ring : rings) {
        for (std::size_t i = 0; i < ring.size(); ++i) {
            const Point &a = ring[i], &b = ring[(i + 1) % ring.size()];
            if ((a.y > point.y) == (b.y > point.y)) continue;
            if (point.x < a.x + (point.y - a.y) / (b.y - a.y) * (b.x - a.x)) odd = !odd;
        }
    }
    return odd;
}

std::vector<Segment> hatch(const std::vector<std::vector<Point>>& rings, double direction_rad, double every) {
    const double c = std::cos(direction_rad), s = std::sin(direction_rad);
    // Turned so that the strokes are level: v across them, u along.
    const auto u_of = [&](const Point& p) { return c * p.x + s * p.y; };
    const auto v_of = [&](const Point& p) { return -s * p.x + c * p.y; };
    double lowest = INFINITY, highest = -INFINITY;
    for (const auto& ring : rings)
        for (const Point& p : ring) {
            lowest = std::min(lowest, v_of(p));
            highest = std::max(highest, v_of(p));
        }
    std::vector<Segment> strokes;
    if (!(lowest < highest) || !(every > 0.0)) return strokes;
    for (double row = std::ceil(lowest / every); row * every < highest; row += 1.0) {
        const double v = row * every;
        std::vector<double> cuts;
        for (const auto& ring : rings)
            for (std::size_t i = 0; i < ring.size(); ++i) {
                const Point &a = ring[i], &b = ring[(i + 1) % ring.size()];
                if ((v_of(a) > v) != (v_of(b) > v))
                    cuts.push_back(u_of(a) + (v - v_of(a)) / (v_of(b) - v_of(a)) * (u_of(b) - u_of(a)));
            }
        std::sort(cuts.begin(), cuts.end());
        const auto back = [&](double u) { return Point{c * u - s * v, s * u + c * v}; };
        for (std::size_t i = 0; i + 1 < cuts.size(); i += 2) strokes.push_back({back(cuts[i]), back(cuts[i + 1])});
    }
    return strokes;
}

}  // namespace selvage::drawing
