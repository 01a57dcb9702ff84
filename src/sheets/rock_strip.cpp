#include "sheets/rock_strip.h"

#include "base/text.h"
#include "drawing/clipping.h"
#include "sheets/trace_runs.h"
#include "sheets/traces.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace selvage::sheets {

namespace {

constexpr double piece_mm = 1.0;       // the strip is laid in pieces of about so much
constexpr double clear_mm = 0.4;       // between a strip and what lies beside it
constexpr double told_mm = 0.5;        // a shorter stretch of a rock shows no pattern to look up
constexpr double least_pick_mm = 0.7;  // a thin vein's colour is drawn so wide at least

struct Strip {
    std::vector<Point> inner, outer;  // along the trace, on its upper side
};

Strip strip_between(const SectionDrawing& drawing, const paths::Path& path, double from, double to) {
    const double gap = drawing.tools.style.size_mm("strip_gap"), width = drawing.tools.style.size_mm("strip_width");
    const int pieces = std::max(1, static_cast<int>(std::ceil((to - from) / (4.0 * piece_mm * drawing.view.metres_per_mm))));
    Strip strip;
    for (int i = 0; i <= pieces; ++i) {
        const double depth = from + (to - from) * i / pieces;
        const Point at = drawing.paper_of(paths::position_at(path, depth));
        const Point upper = sides_at(drawing, path, depth).upper;
        strip.inner.push_back({at.x + gap * upper.x, at.y + gap * upper.y});
        strip.outer.push_back({at.x + (gap + width) * upper.x, at.y + (gap + width) * upper.y});
    }
    return strip;
}

std::vector<Point> outline(const Strip& strip) {
    std::vector<Point> points = strip.inner;
    points.insert(points.end(), strip.outer.rbegin(), strip.outer.rend());
    return points;
}

// Stretches of a run where its strip covers neither another hole's trace in the slab nor a strip that is drawn already.
std::vector<std::pair<double, double>> free_stretches(const SectionDrawing& drawing, const paths::Path& path, const TraceRun& run,
                                                      const std::vector<drawing::Segment>& others) {
    const double gap = drawing.tools.style.size_mm("strip_gap"), width = drawing.tools.style.size_mm("strip_width");
    const double reach = width / 2.0 + clear_mm;
    const double step = piece_mm * drawing.view.metres_per_mm;
    const double from = run.places.front().depth, to = run.places.back().depth;
    std::vector<std::pair<double, double>> stretches;
    bool open = false;
    const int steps = std::max(1, static_cast<int>(std::ceil((to - from) / step)));
    for (int i = 0; i < steps; ++i) {
        const double a = from + (to - from) * i / steps, b = from + (to - from) * (i + 1) / steps, depth = (a + b) / 2.0;
        const Point at = drawing.paper_of(paths::position_at(path, depth));
        const Point upper = sides_at(drawing, path, depth).upper;
        const Point middle{at.x + (gap + width / 2.0) * upper.x, at.y + (gap + width / 2.0) * upper.y};
        const bool is_free = std::none_of(others.begin(), others.end(), [&](const drawing::Segment& other) {
            return drawing::distance(middle, other) < reach;
        });
        if (is_free && open) stretches.back().second = b;
        if (is_free && !open) stretches.emplace_back(a, b);
        open = is_free;
    }
    stretches.erase(
        std::remove_if(stretches.begin(), stretches.end(), [step](const auto& s) { return s.second - s.first < 3.0 * step; }),
        stretches.end());
    return stretches;
}

void add_segments(std::vector<drawing::Segment>& segments, const std::vector<Point>& line) {
    for (std::size_t i = 0; i + 1 < line.size(); ++i) segments.push_back({line[i], line[i + 1]});
}

std::vector<Point> trace_points(const SectionDrawing& drawing, const TraceRun& run) {
    std::vector<Point> points;
    for (std::size_t i = 0; i < run.places.size(); i += 4) points.push_back(drawing.paper(run.places[i]));
    points.push_back(drawing.paper(run.places.back()));
    return points;
}

// Half the length that a pick's colour takes on the trace, m.
double pick_half(const SectionDrawing& drawing, const intercepts::Intercept& hit) {
    return std::max(hit.length(), least_pick_mm * drawing.view.metres_per_mm) / 2.0;
}

// Metres of a stretch that no pick's colour covers.
double length_beside_picks(const SectionDrawing& drawing, const paths::Path& path, double from, double to) {
    double length = to - from;
    for (const intercepts::Intercept& hit : drawing.results.intercepts.met) {
        if (hit.hole != path.hole || vein_number(drawing.results, hit.vein) >= drawing.results.veins.size()) continue;
        const double half = pick_half(drawing, hit);
        length -= std::max(0.0, std::min(to, hit.middle() + half) - std::max(from, hit.middle() - half));
    }
    return length;
}

void draw_rocks(SectionDrawing& drawing, const paths::Path& path, double from, double to) {
    const drawing::LineLook& edge = drawing.tools.style.line("strip_edge");
    for (const tables::GeologyInterval& interval : drawing.results.records.geology) {
        if (interval.hole != path.hole || interval.rock.empty()) continue;
        const double a = std::max(from, interval.from), b = std::min(to, interval.to);
        if (!(b > a)) continue;
        const std::vector<Point> area = outline(strip_between(drawing, path, a, b));
        const bool seen = std::any_of(area.begin(), area.end(), [&](const Point& point) { return drawing.in_window(point); });
        if (!seen) continue;
        drawing.put(Layer::holes, {outlined_area(area, rock_look(interval.rock, drawing.results, drawing.tools), edge)});
        if (length_beside_picks(drawing, path, a, b) > told_mm * drawing.view.metres_per_mm)
            drawing.drawn.rocks.insert(base::folded(interval.rock));
    }
}

void draw_picks(SectionDrawing& drawing, const paths::Path& path, double from, double to) {
    for (const intercepts::Intercept& hit : drawing.results.intercepts.met) {
        if (hit.hole != path.hole || hit.to < from || hit.from > to) continue;
        const std::size_t vein = vein_number(drawing.results, hit.vein);
        if (vein >= drawing.results.veins.size()) continue;
        const double half = pick_half(drawing, hit);
        const Strip strip = strip_between(drawing, path, hit.middle() - half, hit.middle() + half);
        drawing.put(Layer::holes, {area_of(outline(strip), plain(vein_colour(vein, drawing.tools)))});
        drawing.drawn.picked.insert(vein);
    }
}

}  // namespace

void draw_rock_strips(SectionDrawing& drawing) {
    std::vector<drawing::Segment> strips;
    for (const SectionHole& hole : drawing.content.holes) {
        if (!hole.shown) continue;
        const paths::Path& path = drawing.results.paths[hole.path];
        std::vector<drawing::Segment> others = strips;
        for (const SectionHole& other : drawing.content.holes)
            if (other.shown && other.path != hole.path)
                for (const TraceRun& run : other.runs)
                    if (run.in_slab) add_segments(others, trace_points(drawing, run));
        std::vector<drawing::Segment> own;
        for (const TraceRun& run : hole.runs) {
            const TraceRun drilled = part_between(run, path.start_depth, path.drilled_depth);
            if (!run.in_slab || drilled.places.size() < 2) continue;
            for (const auto& [from, to] : free_stretches(drawing, path, drilled, others)) {
                draw_rocks(drawing, path, from, to);
                draw_picks(drawing, path, from, to);
                const Strip strip = strip_between(drawing, path, from, to);
                drawing.keep_clear(strip.inner);
                drawing.keep_clear(strip.outer);
                add_segments(own, strip.inner);
                add_segments(own, strip.outer);
            }
        }
        strips.insert(strips.end(), own.begin(), own.end());
    }
}

}  // namespace selvage::sheets
