#include "sheets/not_seen_chart.h"

#include "base/text.h"
#include "forecast/not_seen.h"
#include "paths/locate.h"
#include "sheets/call_and_stop.h"
#include "sheets/forecast_table.h"
#include "sheets/label_text.h"
#include "sheets/marks.h"
#include "sheets/scale_bar.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace selvage::sheets {

namespace {

constexpr std::size_t charts_beside = 4;
constexpr double chart_width = 72.0, rows_high = 11.0;                // mm; table rows
constexpr double axis_room = 9.0, foot_room = 8.5, head_room = 10.5;  // mm
constexpr double curve_step = 0.5;                                    // m
constexpr double given_up = 0.1;                                      // a chance of one in ten is told

struct Curve {
    std::string hole, vein;
    std::vector<forecast::NotSeen> places;  // by depth
    const forecast::Pierce* pierce = nullptr;
    CallAndStop rule;
};

std::vector<Curve> curves_of(const Results& results) {
    std::vector<Curve> curves;
    for (forecast::NotSeen& place : forecast::not_seen_yet(results.pierces, results.paths, curve_step)) {
        if (curves.empty() || curves.back().hole != place.hole || curves.back().vein != place.vein) {
            const auto pierce = std::find_if(results.pierces.begin(), results.pierces.end(), [&](const forecast::Pierce& one) {
                return one.hole == place.hole && one.vein_number == place.vein_number;
            });
            if (pierce == results.pierces.end()) continue;
            curves.push_back({place.hole, place.vein, {}, &*pierce, call_and_stop(*pierce, results)});
        }
        curves.back().places.push_back(std::move(place));
    }
    return curves;
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

Marks axes_marks(const Axes& axes, const std::string& end, const base::MapFrame& frame, const Tools& tools) {
    const drawing::TextLook& figure = tools.style.text("axis");
    const drawing::LineLook& grid = tools.style.line("grid");
    Marks marks;
    for (const double chance : {0.0, 0.5, 1.0}) {
        marks.push_back(line_of({{axes.box.left, axes.y(chance)}, {axes.box.right, axes.y(chance)}}, grid));
        marks.push_back(
            words({axes.box.left - 1.2, axes.y(chance) - 0.9}, base::fixed(chance, 1), figure, drawing::Anchor::right));
    }
    const double unit = base::metres_per(frame.unit), step = round_length((axes.to - axes.from) / unit / 3.0) * unit;
    const double figure_room = 24.0;
    for (double i = std::ceil(axes.from / step); i * step <= axes.to + 1e-9; i += 1.0) {
        const double x = axes.x(i * step);
        marks.push_back(line_of({{x, axes.box.bottom}, {x, axes.box.bottom - 1.1}}, tools.style.line("axis_tick")));
        if (x < axes.box.right - figure_room)
            marks.push_back(
                words({x, axes.box.bottom - 4.2}, length_figure(i * step, frame, 0), figure, drawing::Anchor::centre));
    }
    marks.push_back(words({axes.box.right, axes.box.bottom - 4.2}, end, figure, drawing::Anchor::right));
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

std::string end_words(const Curve& curve, const base::MapFrame& frame) {
    return curve.rule.goes_on_to.empty() ? "stop at " + length_text(curve.rule.stop, frame, 0)
                                         : "to " + length_text(curve.places.back().depth, frame, 0);
}

// Where 8 holes of 10 meet the vein, under the curve, and the depths to call and stop at.
Marks depth_marks(const Curve& curve, const Axes& axes, const base::MapFrame& frame, const Tools& tools) {
    Marks marks;
    const double low = std::clamp(curve.pierce->depth_p10, axes.from, axes.to);
    const double high = std::clamp(curve.pierce->depth_p90, axes.from, axes.to);
    if (high > low)
        marks.push_back(
            box_area({axes.x(low), axes.box.bottom, axes.x(high), axes.box.top}, plain(tools.style.colour("planned_pale"))));
    const double call = curve.rule.call;
    if (call > axes.from && call < axes.to) {
        marks.push_back(
            line_of({{axes.x(call), axes.box.bottom}, {axes.x(call), axes.box.top}}, tools.style.line("planned_tick")));
        const bool right = axes.x(call) > axes.box.left + 24.0;
        marks.push_back(words({axes.x(call) + (right ? -0.8 : 0.8), axes.box.bottom + 1.2},
                              "call " + length_figure(call, frame, 0), tools.style.text("planned_text"),
                              right ? drawing::Anchor::right : drawing::Anchor::left, 0.4));
    }
    return marks;
}

Marks chart_of(const Curve& curve, const Box& cell, const base::MapFrame& frame, const Tools& tools) {
    const Axes axes{{cell.left + axis_room, cell.bottom + foot_room, cell.right - 3.0, cell.top - head_room},
                    curve.places.front().depth,
                    curve.places.back().depth};
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
    append(marks, axes_marks(axes, end_words(curve, frame), frame, tools));
    std::vector<Point> points;
    for (const forecast::NotSeen& place : curve.places) points.push_back({axes.x(place.depth), axes.y(place.chance_ahead)});
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
        "From the depth drilled to the depth to stop at; pale: 8 holes of 10 meet the vein there. A vein in the core is taken to "
        "be recognised. Figures: tables/not_seen_yet.csv.";
    return table;
}

}  // namespace selvage::sheets
