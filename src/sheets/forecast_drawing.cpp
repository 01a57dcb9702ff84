#include "sheets/forecast_drawing.h"

#include "drawing/clipping.h"
#include "drawing/polyline.h"
#include "sheets/forecast_table.h"
#include "sheets/label_text.h"
#include "sheets/trace_runs.h"
#include "sheets/traces.h"
#include "sheets/vein_ahead.h"
#include "sheets/way_drawing.h"

#include <algorithm>
#include <cmath>

namespace selvage::sheets {

namespace {

constexpr double quantile_90 = 1.2816;  // of the standard normal: 80 % lie within so many sds
constexpr double fan_step_mm = 4.0;
constexpr double least_fan_mm = 0.6;  // half width; a narrower fan is under the dots

bool is_ahead(const paths::Path& path) {
    return path.status == tables::HoleStatus::planned || path.status == tables::HoleStatus::active;
}

double ahead_from(const paths::Path& path) { return std::max(path.start_depth, path.drilled_depth); }

void draw_fan(SectionDrawing& drawing, const paths::Path& path) {
    const double from = ahead_from(path), step = fan_step_mm * drawing.view.metres_per_mm;
    const int steps = std::max(1, static_cast<int>(std::ceil((path.end_depth - from) / step)));
    std::vector<Point> upper, lower;
    double widest = 0.0;
    for (int i = 0; i <= steps; ++i) {
        const double depth = from + (path.end_depth - from) * i / steps;
        const Point at = drawing.paper_of(paths::position_at(path, depth));
        const Point side = sides_at(drawing, path, depth).upper;
        const Eigen::Vector3d across = side.x * drawing.view.frame.right + side.y * Eigen::Vector3d::UnitZ();
        const double half = quantile_90 * std::sqrt(std::max(0.0, across.dot(paths::covariance_at(path, depth) * across))) /
                            drawing.view.metres_per_mm;
        widest = std::max(widest, half);
        upper.push_back({at.x + half * side.x, at.y + half * side.y});
        lower.push_back({at.x - half * side.x, at.y - half * side.y});
    }
    if (widest < least_fan_mm) return;
    std::vector<Point> area = upper;
    area.insert(area.end(), lower.rbegin(), lower.rend());
    const drawing::LineLook& edge = drawing.tools.style.line("planned_fan_edge");
    drawing.put(Layer::forecasts,
                {area_of(area, plain(drawing.tools.style.colour("planned_pale"))), line_of(upper, edge), line_of(lower, edge)});
    for (const std::vector<Point>& side : {upper, lower})
        for (std::size_t i = 0; i + 1 < side.size(); ++i) drawing.obstacles.soft_lines.push_back({side[i], side[i + 1]});
    drawing.note(Sign::planned_fan);
}

void draw_path_ahead(SectionDrawing& drawing, const SectionHole& hole, const paths::Path& path) {
    constexpr double off_slab_share = 0.65;  // contrast with paper 3.2
    const drawing::LineLook& dots = drawing.tools.style.line("trace_planned");
    const drawing::LineLook off_slab = with_colour(dots, paled(dots.colour, off_slab_share));
    for (const TraceRun& run : hole.runs) {
        const TraceRun ahead = part_between(run, ahead_from(path), path.end_depth);
        if (ahead.places.size() < 2) continue;
        std::vector<Point> line;
        for (const TracePlace& place : ahead.places) line.push_back(drawing.paper(place));
        line = drawing::simplified(line, 0.02);
        drawing.put(Layer::forecasts, {line_of(line, run.in_slab ? dots : off_slab)});
        drawing.keep_clear(line);
        drawing.note(Sign::planned_trace);
    }
}

void draw_planned_ticks(SectionDrawing& drawing, const SectionHole& hole, const paths::Path& path) {
    const double step = depth_tick_step(drawing);
    Marks ticks;
    for (const TraceRun& run : hole.runs) {
        if (!run.in_slab) continue;
        const double from = std::max(run.places.front().depth, ahead_from(path)), to = run.places.back().depth;
        for (double i = std::ceil(from / step + 0.05); i * step < to - 0.05 * step; i += 1.0) {
            const Point at = drawing.paper_of(paths::position_at(path, i * step));
            const Point side = sides_at(drawing, path, i * step).upper;
            const double fifth = i / 5.0;
            const double length =
                drawing.tools.style.size_mm(std::abs(fifth - std::round(fifth)) < 1e-6 ? "depth_tick_long" : "depth_tick");
            ticks.push_back(
                line_of({at, {at.x - length * side.x, at.y - length * side.y}}, drawing.tools.style.line("planned_tick")));
        }
    }
    drawing.put(Layer::forecasts, std::move(ticks));
}

void want_depth_label(SectionDrawing& drawing, const paths::Path& path, double depth, const std::string& text,
                      const std::string& role, int priority, double clear_mm, const std::string& link = "") {
    WantedLabel label;
    label.label.owner = path.hole + " " + text;
    label.label.at = drawing.paper_of(paths::position_at(path, depth));
    if (!drawing.in_window(label.label.at)) return;
    label.label.clear_mm = clear_mm;
    label.label.lines = {{text, drawing.tools.style.text(role)}};
    label.label.priority = priority;
    label.label.may_be_listed = false;  // the words of the forecast say it too
    label.planned = true;
    label.link = link;
    drawing.labels.push_back(std::move(label));
}

// A stroke across the path.
void draw_stroke(SectionDrawing& drawing, const paths::Path& path, double depth, double half_mm) {
    const Point at = drawing.paper_of(paths::position_at(path, depth)), side = sides_at(drawing, path, depth).upper;
    const std::vector<Point> stroke{{at.x - half_mm * side.x, at.y - half_mm * side.y},
                                    {at.x + half_mm * side.x, at.y + half_mm * side.y}};
    drawing.put(Layer::forecasts, {line_of(stroke, drawing.tools.style.line("planned_edge"))});
    drawing.keep_clear(stroke);
}

void draw_pierce(SectionDrawing& drawing, const forecast::Pierce& pierce, const paths::Path& path) {
    const double half = drawing.tools.style.size_mm("forecast_bar_width") / 2.0;
    const Point a = drawing.paper_of(paths::position_at(path, pierce.depth_p10)),
                b = drawing.paper_of(paths::position_at(path, pierce.depth_p90));
    const Point side = sides_at(drawing, path, pierce.depth).upper;
    const std::vector<Point> bar{{a.x + half * side.x, a.y + half * side.y},
                                 {b.x + half * side.x, b.y + half * side.y},
                                 {b.x - half * side.x, b.y - half * side.y},
                                 {a.x - half * side.x, a.y - half * side.y}};
    drawing.put(Layer::forecasts,
                {outlined_area(bar, plain(drawing.tools.style.colour("white")), drawing.tools.style.line("planned_edge"))});
    draw_stroke(drawing, path, pierce.depth, half + 0.6);
    drawing.keep_clear({bar[0], bar[1], bar[2], bar[3], bar[0]});
    drawing.note(Sign::planned_bar);
    want_depth_label(drawing, path, pierce.depth, pierce.vein + " " + length_text(pierce.depth, drawing.map(), 0),
                     "planned_strong", 4, half + 0.8, forecast_row_destination(pierce.hole, pierce.vein));
}

// Call depth before each vein, and the depth to stop at after it, or to ask at where it was not met and another is due.
void draw_call_and_stop(SectionDrawing& drawing, const VeinAhead& ahead, const paths::Path& path) {
    constexpr double half = 1.7;
    const CallAndStop rule = call_and_stop(ahead, drawing.results);
    const auto mark = [&](double depth, const std::string& word) {
        if (depth <= path.start_depth || depth > path.end_depth) return;
        draw_stroke(drawing, path, depth, half);
        drawing.note(Sign::planned_depths);
        want_depth_label(drawing, path, depth, word + " " + length_figure(depth, drawing.map(), 0), "planned_text", 2, half);
    };
    mark(rule.call, "call");
    mark(rule.stop, rule.goes_on_to.empty() ? "stop" : "ask");
}

}  // namespace

void draw_forecasts(SectionDrawing& drawing) {
    const auto each = [&drawing](const auto& work) {
        for (const SectionHole& hole : drawing.content.holes)
            if (const paths::Path& path = drawing.results.paths[hole.path];
                hole.shown && is_ahead(path) && path.end_depth > ahead_from(path))
                work(hole, path);
    };
    each([&](const SectionHole&, const paths::Path& path) { draw_fan(drawing, path); });
    each([&](const SectionHole& hole, const paths::Path& path) {
        draw_path_ahead(drawing, hole, path);
        draw_planned_ticks(drawing, hole, path);
        draw_stroke(drawing, path, path.end_depth, drawing.tools.style.size_mm("end_of_hole") / 2.0);
        want_depth_label(drawing, path, path.end_depth,
                         path.hole + " planned to " + length_text(path.end_depth, drawing.map(), 0), "planned_text", 2,
                         drawing.tools.style.size_mm("end_of_hole") / 2.0);
    });
    for (const forecast::Pierce* pierce : drawing.content.pierces) {
        const std::size_t path = path_number(drawing.results, pierce->hole);
        if (path >= drawing.results.paths.size() || !is_within_reach(*pierce)) continue;
        draw_pierce(drawing, *pierce, drawing.results.paths[path]);
    }
    for (const VeinAhead& ahead : veins_ahead(drawing.content.pierces, drawing.results.pierces))
        if (const std::size_t path = path_number(drawing.results, ahead.hole);
            path < drawing.results.paths.size() && is_within_reach(ahead))
            draw_call_and_stop(drawing, ahead, drawing.results.paths[path]);
    draw_way(drawing);
}

}  // namespace selvage::sheets
