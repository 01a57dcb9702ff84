#include "sheets/isolines.h"

#include "drawing/clipping.h"
#include "drawing/contour.h"
#include "drawing/polyline.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

namespace selvage::sheets {

namespace {

constexpr double thinning_mm = 0.03;        // points of a line that tell nothing on paper
constexpr double corner_mm = 1.2;           // rounding of a tint's corners
constexpr double shortest_line_mm = 1.5;    // a shorter scrap is no line
constexpr double shortest_named_mm = 16.0;  // a shorter one has no room for its figure
constexpr double goes_on_mm = 0.05;         // between the ends of pieces of one line
// Where two reaches meet, a field between its nodes comes out up to a sixth of a step too high: taken off the tints.
constexpr double tint_inset = 1.0 / 6.0;
constexpr double tint_metres_per_log = 40.0;  // only bends the corner where value and reach meet

drawing::ValueGrid on_paper(const VeinField& field, const PaperFrame& frame, std::vector<double> values) {
    const double step = field.step / frame.metres_per_mm;
    return {frame.paper_from_drawn(field.corner), step, step, field.across, field.up, std::move(values)};
}

// Value of a grid between its nodes, linear in each direction; the nearest inside for a point off it.
double between_nodes(const drawing::ValueGrid& grid, const Point& at) {
    const double x = std::clamp((at.x - grid.first.x) / grid.step_x, 0.0, static_cast<double>(grid.columns - 1) - 1e-9);
    const double y = std::clamp((at.y - grid.first.y) / grid.step_y, 0.0, static_cast<double>(grid.rows - 1) - 1e-9);
    const auto column = static_cast<std::size_t>(x), row = static_cast<std::size_t>(y);
    const double u = x - static_cast<double>(column), v = y - static_cast<double>(row);
    return (1.0 - v) * ((1.0 - u) * grid.at(column, row) + u * grid.at(column + 1, row)) +
           v * ((1.0 - u) * grid.at(column, row + 1) + u * grid.at(column + 1, row + 1));
}

enum class Standing { not_drawn, dashed, solid };

struct Reaches {
    drawing::ValueGrid solid, drawn;
    Standing at(const Point& place) const {
        if (between_nodes(solid, place) > 0.0) return Standing::solid;
        return between_nodes(drawn, place) > 0.0 ? Standing::dashed : Standing::not_drawn;
    }
    // Where the standing changes between two points, by halving.
    Point change(Point from, Point to) const {
        const Standing before = at(from);
        for (int halving = 0; halving < 12; ++halving) {
            const Point middle{(from.x + to.x) / 2.0, (from.y + to.y) / 2.0};
            (at(middle) == before ? from : to) = middle;
        }
        return to;
    }
};

// A closed line opened where its standing changes, so that no piece is cut at the seam; with its first point again at its end.
std::vector<Point> opened(const drawing::ContourLine& line, const Reaches& reaches) {
    std::vector<Point> points = line.points;
    if (!line.closed) return points;
    const Standing first = reaches.at(points.front());
    const auto other = std::find_if(points.begin(), points.end(), [&](const Point& p) { return reaches.at(p) != first; });
    if (other != points.end()) std::rotate(points.begin(), other, points.end());
    points.push_back(points.front());
    return points;
}

void add_pieces(std::vector<Isoline>& lines, const std::vector<Point>& points, std::size_t level, const Reaches& reaches) {
    std::vector<Point> piece{points.front()};
    Standing standing = reaches.at(points.front());
    const auto finish = [&] {
        if (standing != Standing::not_drawn && drawing::length_of(piece) >= shortest_line_mm)
            lines.push_back({drawing::simplified(piece, thinning_mm), standing == Standing::solid, level});
    };
    for (std::size_t i = 1; i < points.size(); ++i) {
        const Standing next = reaches.at(points[i]);
        if (next != standing) {
            const Point cut = reaches.change(points[i - 1], points[i]);
            piece.push_back(cut);
            finish();
            piece = {cut};
            standing = next;
        }
        piece.push_back(points[i]);
    }
    finish();
}

Tint tint_above(const VeinField& field, double log_break, std::size_t level, const PaperFrame& frame) {
    std::vector<double> both(field.log_value.size());
    for (std::size_t node = 0; node < both.size(); ++node) {
        const double above = (field.log_value[node] - log_break) * tint_metres_per_log;
        const double solid = field.solid[node] - tint_inset * field.step;
        both[node] = std::isfinite(above) ? std::min(above, solid) : std::min(-field.step, solid);
    }
    Tint tint;
    tint.level = level;
    std::vector<std::vector<Point>> sharp;
    for (const std::vector<Point>& ring :
         drawing::contour_area(on_paper(field, frame, std::move(both)), 0.0, std::numeric_limits<double>::infinity()))
        sharp.push_back(drawing::simplified(ring, thinning_mm));
    // Only corners that stick out are cut: an arc in one that goes in would carry the tint past its edge.
    const auto within = [&](const Point& at) { return drawing::inside(at, sharp); };
    for (const std::vector<Point>& ring : sharp) tint.rings.push_back(drawing::rounded(ring, true, corner_mm, within));
    return tint;
}

bool crosses_another(const Box& box, std::size_t own, const std::vector<Isoline>& lines) {
    for (std::size_t i = 0; i < lines.size(); ++i)
        for (std::size_t k = 1; i != own && k < lines[i].points.size(); ++k)
            if (drawing::touches({lines[i].points[k - 1], lines[i].points[k]}, box)) return true;
    return false;
}

double distance_between(const Box& a, const Box& b) {
    const double dx = std::max({0.0, a.left - b.right, b.left - a.right});
    const double dy = std::max({0.0, a.bottom - b.top, b.bottom - a.top});
    return std::hypot(dx, dy);
}

}  // namespace

namespace {

// That neither end of a piece goes on as another piece of its level: nothing else tells its figure.
bool is_alone(const std::vector<Isoline>& lines, std::size_t number) {
    const auto near = [](const Point& a, const Point& b) { return std::hypot(a.x - b.x, a.y - b.y) < goes_on_mm; };
    const std::vector<Point>& own = lines[number].points;
    for (std::size_t i = 0; i < lines.size(); ++i) {
        if (i == number || lines[i].level != lines[number].level) continue;
        for (const Point& end : {lines[i].points.front(), lines[i].points.back()})
            if (near(end, own.front()) || near(end, own.back())) return false;
    }
    return true;
}

// Without dashed pieces that stand alone and are too short for their figure.
std::vector<Isoline> that_can_be_named(const std::vector<Isoline>& lines) {
    std::vector<Isoline> kept;
    for (std::size_t i = 0; i < lines.size(); ++i)
        if (lines[i].solid || drawing::length_of(lines[i].points) >= shortest_named_mm || !is_alone(lines, i))
            kept.push_back(lines[i]);
    return kept;
}

}  // namespace

Isolines cut_isolines(const VeinField& field, const std::vector<double>& log_breaks, const PaperFrame& frame) {
    Isolines isolines;
    if (field.log_value.empty()) return isolines;
    const Reaches reaches{on_paper(field, frame, field.solid), on_paper(field, frame, field.drawn)};
    const drawing::ValueGrid values = on_paper(field, frame, field.log_value);
    for (std::size_t level = 0; level < log_breaks.size(); ++level) {
        Tint tint = tint_above(field, log_breaks[level], level, frame);
        if (!tint.rings.empty()) isolines.tints.push_back(std::move(tint));
        for (const drawing::ContourLine& line : drawing::contour_lines(values, log_breaks[level]))
            if (line.points.size() > 1) add_pieces(isolines.lines, opened(line, reaches), level, reaches);
    }
    isolines.lines = that_can_be_named(isolines.lines);
    return isolines;
}

std::vector<IsolineFigure> isoline_figures(const std::vector<Isoline>& lines, const std::vector<std::string>& names,
                                           const drawing::Obstacles& taken, const Box& window, const Tools& tools) {
    constexpr double from_end_mm = 4.0, every_mm = 2.0, air_mm = 0.6, free_enough_mm = 8.0;
    constexpr std::size_t a_level = 3;
    const drawing::TextLook& look = tools.style.text("isoline_figure");
    const double cap = drawing::cap_height_mm(tools.fonts, look);
    std::vector<std::size_t> order(lines.size());
    for (std::size_t i = 0; i < order.size(); ++i) order[i] = i;
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
        return drawing::length_of(lines[a].points) > drawing::length_of(lines[b].points);
    });
    std::vector<std::size_t> placed(names.size(), 0);
    std::vector<IsolineFigure> figures;
    std::vector<Box> covered = taken.boxes;
    for (const std::size_t number : order) {
        const Isoline& line = lines[number];
        const double length = drawing::length_of(line.points);
        if (length < shortest_named_mm || (placed[line.level] >= a_level && !is_alone(lines, number))) continue;
        const double half = drawing::text_width_mm(tools.fonts, look, names[line.level]) / 2.0;
        double best = 0.0;
        Point best_at;
        for (double along = from_end_mm + half; along < length - from_end_mm - half; along += every_mm) {
            const Point at = drawing::point_along(line.points, along).at;
            const Box box{at.x - half - air_mm, at.y - cap / 2.0 - air_mm, at.x + half + air_mm, at.y + cap / 2.0 + air_mm};
            if (box.left < window.left || box.right > window.right || box.bottom < window.bottom || box.top > window.top)
                continue;
            double free = free_enough_mm;
            for (const Box& other : covered) free = std::min(free, distance_between(box, other));
            if (free <= best + 0.5 || crosses_another(box, number, lines)) continue;
            if (std::any_of(taken.lines.begin(), taken.lines.end(),
                            [&](const drawing::Segment& other) { return drawing::touches(other, box); }))
                continue;
            best = free;
            best_at = at;
        }
        if (best <= 0.0) continue;
        IsolineFigure figure;
        figure.text = {{best_at.x, best_at.y - cap / 2.0}, names[line.level], look, drawing::Anchor::centre, false, 0.0, {}};
        figure.box = {best_at.x - half - air_mm, best_at.y - cap / 2.0 - air_mm, best_at.x + half + air_mm,
                      best_at.y + cap / 2.0 + air_mm};
        covered.push_back(figure.box);
        figures.push_back(std::move(figure));
        ++placed[line.level];
    }
    return figures;
}

}  // namespace selvage::sheets
