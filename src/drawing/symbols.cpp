#include "drawing/symbols.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <functional>
#include <map>

namespace selvage::drawing {

namespace {

constexpr double pi = 3.14159265358979323846;

// Points of a circle: at the largest symbol (5 mm) its corners stay within 0.003 mm of the true circle.
constexpr int circle_points = 48;

// Shares of the whole width.
constexpr double dot_share = 0.3;    // of a ring with a dot
constexpr double target_tick = 0.3;  // four ticks, half within and half without the ring
constexpr double target_dot = 0.17;
constexpr double star_inner_share = 0.42;  // inner corners of the star, of its outer radius

using Rings = std::vector<std::vector<Point>>;

Shape area(std::vector<Point> ring, const SymbolLook& look) { return {{std::move(ring)}, true, look.edge, look.fill}; }

Shape dot(Point centre, double radius, const SymbolLook& look) {
    const Colour ink = look.edge ? look.edge->colour : Colour{};
    return {{circle(centre, radius)}, true, std::nullopt, FillLook{ink, {}}};
}

// A regular polygon (or star) with its first corner straight up.
std::vector<Point> corners(Point centre, int count, const std::function<double(int)>& radius_of, double first = pi / 2) {
    std::vector<Point> ring;
    for (int i = 0; i < count; ++i) {
        const double turn = first + 2.0 * pi * i / count;
        ring.push_back({centre.x + radius_of(i) * std::cos(turn), centre.y + radius_of(i) * std::sin(turn)});
    }
    return ring;
}

std::vector<Point> rectangle(Point c, double half_width, double half_height) {
    return {{c.x - half_width, c.y - half_height},
            {c.x + half_width, c.y - half_height},
            {c.x + half_width, c.y + half_height},
            {c.x - half_width, c.y + half_height}};
}

using Draw = std::vector<Shape> (*)(Point, double, const SymbolLook&);

std::vector<Shape> draw_ring(Point c, double width, const SymbolLook& look) { return {area(circle(c, width / 2), look)}; }

std::vector<Shape> draw_ring_dot(Point c, double width, const SymbolLook& look) {
    return {area(circle(c, width / 2), look), dot(c, dot_share * width / 2, look)};
}

std::vector<Shape> draw_half_ring(Point c, double width, const SymbolLook& look) {
    std::vector<Point> half;
    for (int i = 0; i <= circle_points / 2; ++i) {
        const double turn = pi / 2 + 2.0 * pi * i / circle_points;
        half.push_back({c.x + width / 2 * std::cos(turn), c.y + width / 2 * std::sin(turn)});
    }
    const Colour ink = look.edge ? look.edge->colour : Colour{};
    return {area(circle(c, width / 2), look), {{half}, true, std::nullopt, FillLook{ink, {}}}};
}

std::vector<Shape> draw_target(Point c, double width, const SymbolLook& look) {
    const double radius = width / 2, from = radius - target_tick * width / 2, to = radius + target_tick * width / 2;
    const Rings ticks{{{c.x + from, c.y}, {c.x + to, c.y}},
                      {{c.x - from, c.y}, {c.x - to, c.y}},
                      {{c.x, c.y + from}, {c.x, c.y + to}},
                      {{c.x, c.y - from}, {c.x, c.y - to}}};
    return {area(circle(c, radius), look), {ticks, false, look.edge, std::nullopt}, dot(c, target_dot * width / 2, look)};
}

// Triangles stand on their centre of area, as wide as the symbol and equilateral.
std::vector<Shape> draw_triangle(Point c, double width, const SymbolLook& look) {
    return {area(corners(c, 3, [&](int) { return width / std::sqrt(3.0); }), look)};
}

std::vector<Shape> draw_triangle_down(Point c, double width, const SymbolLook& look) {
    return {area(corners(
                     c, 3, [&](int) { return width / std::sqrt(3.0); }, -pi / 2),
                 look)};
}

std::vector<Shape> draw_square(Point c, double width, const SymbolLook& look) {
    return {area(rectangle(c, width / 2, width / 2), look)};
}

std::vector<Shape> draw_box(Point c, double width, const SymbolLook& look) {
    return {area(rectangle(c, width / 2, width / 4), look)};
}

std::vector<Shape> draw_diamond(Point c, double width, const SymbolLook& look) {
    return {area(corners(c, 4, [&](int) { return width / 2; }), look)};
}

std::vector<Shape> draw_star(Point c, double width, const SymbolLook& look) {
    const double outer = width / (2.0 * std::cos(pi / 10.0));  // the arms' tips are `width` apart
    return {area(corners(c, 10, [&](int i) { return i % 2 == 0 ? outer : star_inner_share * outer; }), look)};
}

std::vector<Shape> draw_cross(Point c, double width, const SymbolLook& look) {
    const double half = width / 2;
    const Rings strokes{{{c.x - half, c.y - half}, {c.x + half, c.y + half}},
                        {{c.x - half, c.y + half}, {c.x + half, c.y - half}}};
    return {{strokes, false, look.edge, std::nullopt}};
}

std::vector<Shape> draw_hexagon(Point c, double width, const SymbolLook& look) {
    return {area(corners(
                     c, 6, [&](int) { return width / 2; }, 0.0),
                 look)};
}

const std::map<std::string, Draw>& drawings() {
    static const std::map<std::string, Draw> all{
        {"ring", draw_ring},     {"ring_dot", draw_ring_dot}, {"half_ring", draw_half_ring},
        {"target", draw_target}, {"triangle", draw_triangle}, {"triangle_down", draw_triangle_down},
        {"square", draw_square}, {"diamond", draw_diamond},   {"star", draw_star},
        {"cross", draw_cross},   {"hexagon", draw_hexagon},   {"box", draw_box}};
    return all;
}

// The same outlines in a white line that shows `halo_mm` beyond the edge.
Shape halo_of(const Shape& shape, double halo_mm) {
    const double edge = shape.line ? shape.line->width_mm : 0.0;
    return {shape.rings, shape.closed, LineLook{edge + 2.0 * halo_mm, {255, 255, 255}, {}, true}, std::nullopt};
}

}  // namespace

const std::vector<std::string>& symbol_names() {
    static const std::vector<std::string> names = [] {
        std::vector<std::string> all;
        for (const auto& entry : drawings()) all.push_back(entry.first);
        return all;
    }();
    return names;
}

std::vector<Shape> symbol(const std::string& name, Point centre, double width_mm, const SymbolLook& look) {
    const auto drawing = drawings().find(name);
    assert(drawing != drawings().end() && "no symbol of that name");
    const std::vector<Shape> shapes = (drawing == drawings().end() ? draw_ring : drawing->second)(centre, width_mm, look);
    std::vector<Shape> all;
    if (look.halo_mm > 0.0)
        for (const Shape& shape : shapes) all.push_back(halo_of(shape, look.halo_mm));
    all.insert(all.end(), shapes.begin(), shapes.end());
    return all;
}

std::vector<Point> circle(Point centre, double radius) { return ellipse(centre, radius, radius, 0.0); }

std::vector<Point> ellipse(Point centre, double half_long, double half_short, double turned) {
    std::vector<Point> ring;
    const double c = std::cos(turned), s = std::sin(turned);
    for (int i = 0; i < circle_points; ++i) {
        const double turn = 2.0 * pi * i / circle_points;
        const double u = half_long * std::cos(turn), v = half_short * std::sin(turn);
        ring.push_back({centre.x + c * u - s * v, centre.y + s * u + c * v});
    }
    return ring;
}

Shape arrow_head(Point tip, double dx, double dy, double length_mm, Colour colour) {
    constexpr double half_width = 0.32;  // of its length
    const double norm = std::hypot(dx, dy);
    const double ux = norm > 0.0 ? dx / norm : 1.0, uy = norm > 0.0 ? dy / norm : 0.0;
    const Point foot{tip.x - length_mm * ux, tip.y - length_mm * uy};
    const double w = half_width * length_mm;
    return {{{tip, {foot.x - w * uy, foot.y + w * ux}, {foot.x + w * uy, foot.y - w * ux}}},
            true,
            std::nullopt,
            FillLook{colour, {}}};
}

}  // namespace selvage::drawing
