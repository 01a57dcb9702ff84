#include "sheets/not_seen_chart.h"

#include "base/text.h"
#include "forecast/not_seen.h"
#include "paths/locate.h"
#include "sheets/forecast_table.h"
#include "sheets/label_text.h"
#include "sheets/marks.h"
#include "sheets/scale_bar.h"
#include "sheets/vein_ahead.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace selvage::sheets {

namespace {

constexpr std::size_t charts_beside = 4;
constexpr double chart_width = 72.0, rows_high = 11.0;                  // mm; table rows
constexpr double axis_room = 11.5, foot_room = 11.5, head_room = 10.5;  // mm
constexpr double curve_step = 0.5;                                      // m
constexpr double before_call = 0.3, past_stop = 0.6;                    // of the length that it falls over
constexpr double given_up = 0.1;                                        // a chance of one in ten is told

struct Curve {
    std::string hole, vein;
    std::vector<forecast::NotSeen> places;  // by depth
    VeinAhead ahead;
    CallAndStop rule;
    double end = 0.0;  // m, of the hole as it is planned
};

std::vector<Curve> curves_of(const Results& results) {
    std::vector<Curve> curves;
    const std::vector<VeinAhead> all = veins_ahead(results.pierces);
    for (forecast::NotSeen& place : forecast::not_seen_yet(results.pierces, results.paths, curve_step)) {
        if (curves.empty() || curves.back().hole != place.hole || curves.back().vein != place.vein) {
            const auto ahead = std::find_if(all.begin(), all.end(), [&](const VeinAhead& one) {
                return one.hole == place.hole && one.likeliest().vein_number == place.vein_number;
            });
            const paths::Path* path = paths::path_of(results.paths, place.hole);
            if (ahead == all.end() || path == nullptr) continue;
            curves.push_back({place.hole, place.vein, {}, *ahead, call_and_stop(*ahead, results), path->end_depth});
        }
        curves.back().places.push_back(std::move(place));
    }
    return curves;
}

// That the hole is stopped after this vein, before its planned end.
bool stops(const Curve& curve) { return curve.rule.reached && curve.rule.goes_on_to.empty() && !curve.rule.past_end; }

// That it stops and asks after this vein, and goes on to a further one where it has met it.
bool asks(const Curve& curve) { return curve.rule.reached && !curve.rule.goes_on_to.empty(); }

// From a little above the depth to call at, where the curve starts to fall, to past the hole's planned end where that is near.
struct Extent {
    double from = 0.0, to = 0.0;  // m
};
Extent extent_of(const Curve& curve) {
    const double last = curve.places.back().depth, fall = last - std::min(curve.rule.call, last);
    const double from = std::max(curve.places.front().depth, curve.rule.call - before_call * fall);
    const double to = stops(curve) || asks(curve) ? std::max(last, curve.rule.ask()) : last;
    const bool end_near = curve.end > to && curve.end - to < past_stop * (to - from);
    return {std::min(from, last - curve_step), end_near ? curve.end : to};
}

// The first depth at which no more than `chance` is left.
std::optional<double> depth_when(const Curve& curve, double chance) {
    for (const forecast::NotSeen& place : curve.places)
        if (place.chance_ahead <= chance) return place.depth;
    return std::nullopt;
}

// The chart's own axes on paper.
struct Axes {
    Box box;
    double from = 0.0, to = 1.0;  // m
    double x(double depth) const { return box.left + (depth - from) / (to - from) * box.width(); }
    double y(double chance) const { return box.bottom + chance * box.height(); }
};

// A step that leaves room for the figure of every tick.
double tick_step(const Axes& axes, double unit) {
    constexpr double figure_room = 10.0;  // mm
    return round_length(2.5 * (axes.to - axes.from) / unit * figure_room / axes.box.width()) * unit;
}

Marks axes_marks(const Axes& axes, const base::MapFrame& frame, const Tools& tools) {
    const drawing::TextLook& figure = tools.style.text("axis");
    const drawing::LineLook& grid = tools.style.line("grid");
    Marks marks;
    for (const double chance : {0.0, 0.5, 1.0}) {
        marks.push_back(line_of({{axes.box.left, axes.y(chance)}, {axes.box.right, axes.y(chance)}}, grid));
        marks.push_back(
            words({axes.box.left - 1.2, axes.y(chance) - 0.9}, base::fixed(chance, 1), figure, drawing::Anchor::right));
    }
    const double step = tick_step(axes, base::metres_per(frame.unit));
    for (double i = std::ceil(axes.from / step - 1e-9); i * step <= axes.to + 1e-9; i += 1.0) {
        const double x = axes.x(i * step);
        marks.push_back(line_of({{x, axes.box.bottom}, {x, axes.box.bottom - 1.1}}, tools.style.line("axis_tick")));
        marks.push_back(words({x, axes.box.bottom - 4.2}, length_figure(i * step, frame, 0), figure, drawing::Anchor::centre));
    }
    marks.push_back(words({axes.box.right, axes.box.bottom - 7.8},
                          std::string("depth down the hole, ") + base::symbol_of(frame.unit), figure, drawing::Anchor::right));
    marks.push_back(words({axes.box.left, axes.box.bottom - 7.8}, "up: chance", figure));
    marks.push_back(box_outline(axes.box, tools.style.line("axis_tick")));
    return marks;
}

std::string word_under(const Curve& curve, const base::MapFrame& frame) {
    const std::string now = "now " + chance_text(curve.places.front().chance_ahead);
    if (curve.places.front().chance_ahead <= given_up) return now;
    const std::optional<double> gone = depth_when(curve, given_up);
    return gone ? now + "; not seen by " + length_text(*gone, frame, 0) + ": one in ten is left"
                : now + "; at " + length_text(curve.places.back().depth, frame, 0) + " still " +
                      chance_text(curve.places.back().chance_ahead);
}

struct DepthMark {
    double depth = 0.0;  // m
    std::string text;
    bool at_top = false;
    const char* line = "axis_tick";
};

// A depth as a line across the chart, its words beside it on the side where they cross none of the other lines, the right one
// first.
Marks drawn_mark(const DepthMark& mark, const std::vector<DepthMark>& all, const Axes& axes, const Tools& tools) {
    constexpr double gap = 0.8;  // mm
    const drawing::TextLook& look = tools.style.text("planned_text");
    const double x = axes.x(mark.depth), width = gap + drawing::text_width_mm(tools.fonts, look, mark.text);
    const auto is_free = [&](double from, double to) {
        return from >= axes.box.left && to <= axes.box.right && std::none_of(all.begin(), all.end(), [&](const DepthMark& other) {
                   return other.depth != mark.depth && axes.x(other.depth) > from && axes.x(other.depth) < to;
               });
    };
    const bool right_of_it = is_free(x, x + width) || (!is_free(x - width, x) && x < (axes.box.left + axes.box.right) / 2.0);
    const double y = mark.at_top ? axes.box.top - 3.6 : axes.box.bottom + 1.2;
    return {line_of({{x, axes.box.bottom}, {x, axes.box.top}}, tools.style.line(mark.line)),
            words({x + (right_of_it ? gap : -gap), y}, mark.text, look,
                  right_of_it ? drawing::Anchor::left : drawing::Anchor::right, 0.4)};
}

// Where 8 holes of 10 meet the vein, under the curve, the depths to call and stop at, and the planned end.
Marks depth_marks(const Curve& curve, const Axes& axes, const base::MapFrame& frame, const Tools& tools) {
    Marks marks;
    for (const forecast::Pierce* piece : curve.ahead.pieces) {
        const double low = std::clamp(piece->depth_p10, axes.from, axes.to),
                     high = std::clamp(piece->depth_p90, axes.from, axes.to);
        if (high > low)
            marks.push_back(
                box_area({axes.x(low), axes.box.bottom, axes.x(high), axes.box.top}, plain(tools.style.colour("planned_pale"))));
    }
    std::vector<DepthMark> all;
    const auto add = [&](double depth, const std::string& what, bool at_top, const char* line) {
        if (depth > axes.from && depth <= axes.to)
            all.push_back({depth, what + " " + length_figure(depth, frame, 0), at_top, line});
    };
    add(curve.end, "end", true, "axis_tick");  // over the curve, which falls; the others under it
    if (stops(curve)) add(curve.rule.stop, "stop", false, "planned_beyond");
    if (asks(curve)) add(curve.rule.ask(), "ask", false, "planned_beyond");
    if (curve.rule.reached) add(curve.rule.call, "call", false, "planned_tick");
    for (const DepthMark& mark : all) append(marks, drawn_mark(mark, all, axes, tools));
    return marks;
}

Marks chart_of(const Curve& curve, const Box& cell, const base::MapFrame& frame, const Tools& tools) {
    const Extent extent = extent_of(curve);
    const Axes axes{
        {cell.left + axis_room, cell.bottom + foot_room, cell.right - 3.0, cell.top - head_room}, extent.from, extent.to};
    Marks marks;
    drawing::Text title{{cell.left, cell.top - 4.0},
                        curve.hole + ", " + curve.vein,
                        tools.style.text("heading"),
                        drawing::Anchor::left,
                        false,
                        0.0,
                        forecast_row_destination(curve.hole, curve.vein)};
    marks.emplace_back(std::move(title));
    marks.push_back(words({cell.left, cell.top - 7.4}, word_under(curve, frame), tools.style.text("body")));
    append(marks, depth_marks(curve, axes, frame, tools));
    append(marks, axes_marks(axes, frame, tools));
    std::vector<Point> points;
    for (const forecast::NotSeen& place : curve.places)
        if (place.depth >= axes.from) points.push_back({axes.x(place.depth), axes.y(place.chance_ahead)});
    marks.push_back(line_of(std::move(points), tools.style.line("planned_edge")));
    return marks;
}

}  // namespace

TypesetTable not_seen_charts(const Results& results, const Tools& tools) {
    TypesetTable table;
    table.heading =
        "Not seen yet: the chance that the vein still lies ahead of an active hole, should the core show none down to there";
    for (std::size_t i = 0; i < charts_beside; ++i) table.columns.push_back({"", "", Cells::drawing, false, chart_width});
    table.rows_high = rows_high;
    const std::vector<Curve> curves = curves_of(results);
    for (std::size_t i = 0; i < curves.size(); ++i) {
        if (i % charts_beside == 0) table.rows.emplace_back();
        TableCell cell;
        cell.draw = [curve = curves[i], frame = results.records.frame, tools](const Box& box) {
            return chart_of(curve, box, frame, tools);
        };
        table.rows.back().cells.push_back(std::move(cell));
    }
    table.end_words =
        "From a little above the depth to call at to the depth to stop or to ask at; pale: 8 holes of 10 meet the vein there; "
        "end: of the "
        "hole as "
        "planned, where it is near. A vein in the core is taken to be recognised. Now: the forecast's chance, of all blocks "
        "together, less where "
        "core already drilled could have shown the vein.";
    return table;
}

}  // namespace selvage::sheets
