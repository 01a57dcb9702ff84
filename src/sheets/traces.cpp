#include "sheets/traces.h"

#include "drawing/clipping.h"
#include "drawing/polyline.h"
#include "sheets/label_text.h"
#include "sheets/rock_strip.h"
#include "sheets/section_labels.h"
#include "sheets/symbols.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace selvage::sheets {

namespace {

constexpr double thinning_mm = 0.03;         // points of a trace that lie nearer to its line are left out
constexpr double far_offset_spacings = 2.0;  // off the slab by so many spacings: the palest grey
constexpr double remark_least_mm = 14.0;     // an off-slab run shorter on paper bears no distance
constexpr int numbered_tick = 5;
constexpr double own_trace_mm = 5.0;  // nearer to another hole's trace it could be that one's
constexpr double own_end_mm = 9.0;    // nearer to where another hole's run ends, a remark would seem that one's
constexpr double same_collar_mm = 3.5;
constexpr std::size_t most_name_lines = 4;  // of the holes of one state at one collar

std::vector<Point> on_paper(const SectionDrawing& drawing, const TraceRun& run) {
    std::vector<Point> points;
    for (const TracePlace& place : run.places) points.push_back(drawing.paper(place));
    return drawing::simplified(points, thinning_mm);
}

double middle_offset(const TraceRun& run) { return run.places[run.places.size() / 2].offset; }

drawing::Colour grey_of(const SectionDrawing& drawing, double offset) {
    const double beyond = std::abs(offset) - drawing.section.half_width;
    const double share = std::clamp(beyond / (far_offset_spacings * drawing.set.spacing), 0.0, 1.0);
    const drawing::Colour near = drawing.tools.style.colour("off_slab"), far = drawing.tools.style.colour("off_slab_far");
    const auto mixed = [share](int a, int b) { return static_cast<int>(std::lround(a + share * (b - a))); };
    return {mixed(near.red, far.red), mixed(near.green, far.green), mixed(near.blue, far.blue)};
}

// "VR-17, 40 m in front"
std::string offset_words(const SectionDrawing& drawing, double offset) {
    return length_text(std::abs(offset), drawing.map(), 0) + (offset < 0.0 ? " in front" : " behind");
}

void draw_off_slab(SectionDrawing& drawing, const TraceRun& run) {
    const std::vector<Point> line = on_paper(drawing, run);
    const double offset = middle_offset(run);
    drawing.off_slab.push_back(line_of(line, with_colour(drawing.tools.style.line("trace_off_slab"), grey_of(drawing, offset))));
    for (std::size_t i = 0; i + 1 < line.size(); ++i) drawing.obstacles.soft_lines.push_back({line[i], line[i + 1]});
    drawing.note(Sign::trace_off_slab);
}

// Where the runs of all other holes begin and end.
std::vector<Point> ends_of_others(const SectionDrawing& drawing, const std::string& hole) {
    std::vector<Point> ends;
    for (const SectionHole& other : drawing.content.holes) {
        if (!other.shown || drawing.results.paths[other.path].hole == hole) continue;
        for (const TraceRun& run : other.runs)
            for (const TracePlace& place : {run.places.front(), run.places.back()}) ends.push_back(drawing.paper(place));
    }
    return ends;
}

std::vector<drawing::Segment> traces_of_others(const SectionDrawing& drawing, const std::string& hole) {
    std::vector<drawing::Segment> traces;
    for (const SectionHole& other : drawing.content.holes) {
        if (!other.shown || drawing.results.paths[other.path].hole == hole) continue;
        for (const TraceRun& run : other.runs) {
            const std::vector<Point> line = on_paper(drawing, run);
            for (std::size_t i = 1; i < line.size(); ++i) traces.push_back({line[i - 1], line[i]});
        }
    }
    return traces;
}

// How far off the section a run lies, in words beside it where it is by itself; else a number there and a line in the side list.
// A run at its collar without such a place bears none: the collar's own words say it.
void want_remark(SectionDrawing& drawing, const TraceRun& run, const std::string& hole, const char* look) {
    const std::vector<std::vector<Point>> seen = drawing::clipped_line(on_paper(drawing, run), drawing.view.window);
    if (seen.empty() || drawing::length_of(seen.front()) < remark_least_mm) return;
    const auto at = [&](double share) { return drawing::point_along(seen.front(), share * drawing::length_of(seen.front())).at; };
    WantedLabel label;
    label.label.owner = hole;
    const std::vector<Point> others = ends_of_others(drawing, hole);
    const std::vector<drawing::Segment> other_traces = traces_of_others(drawing, hole);
    bool first = true;
    Point at_words;
    for (const double share : {0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8, 0.1, 0.9}) {
        const Point there = at(share);
        if (std::any_of(others.begin(), others.end(),
                        [&](const Point& end) { return std::hypot(end.x - there.x, end.y - there.y) < own_end_mm; }) ||
            std::any_of(other_traces.begin(), other_traces.end(),
                        [&](const drawing::Segment& trace) { return drawing::distance(there, trace) < own_trace_mm; }))
            continue;
        if (first)
            at_words = label.label.at = there;
        else
            label.label.also_at.push_back(there);
        first = false;
    }
    constexpr double at_collar = 1.0;                           // m
    if (first && run.places.front().depth < at_collar) return;  // the collar's own words say how far off it is
    if (first) at_words = label.label.at = at(0.5);
    const double distance = drawing.view.distance_at(at_words.x), up = drawing.view.up_at(at_words.y);
    const TracePlace* nearest = &run.places.front();
    for (const TracePlace& place : run.places)
        if (std::hypot(place.distance - distance, place.up - up) < std::hypot(nearest->distance - distance, nearest->up - up))
            nearest = &place;
    label.label.clear_mm = 0.4;
    label.label.soft_weight = 40.0;  // on another trace it would seem that one's: rather a leader
    label.label.priority = 1;
    label.label.may_lead = false;  // a leader among traces looks like one more
    label.label.worst_place = 6.0;
    label.label.listed_text = hole + "\ttrace " + offset_words(drawing, nearest->offset);
    label.label.lines = {{hole + ", " + offset_words(drawing, nearest->offset), drawing.tools.style.text(look)}};
    drawing.labels.push_back(std::move(label));
}

void draw_in_slab(SectionDrawing& drawing, const paths::Path& path, const TraceRun& run) {
    const TraceRun surveyed = part_between(run, path.start_depth, std::max(path.surveyed_depth, path.start_depth));
    const TraceRun run_on = part_between(run, std::max(path.surveyed_depth, path.start_depth), path.drilled_depth);
    if (surveyed.places.size() > 1) {
        drawing.put(Layer::holes, {line_of(on_paper(drawing, surveyed), drawing.tools.style.line("trace"))});
        drawing.note(Sign::trace_in_slab);
    }
    // A last stretch shorter than a dash and a gap is not told apart.
    if (run_on.places.size() > 1) {
        const std::vector<Point> line = on_paper(drawing, run_on);
        const bool told = drawing::length_of(line) > 3.5;
        drawing.put(Layer::holes, {line_of(line, drawing.tools.style.line(told ? "trace_run_on" : "trace"))});
        drawing.note(told ? Sign::trace_run_on : Sign::trace_in_slab);
    }
    drawing.keep_clear(on_paper(drawing, run));
}

// Depths of the ticks within a run, first and last left out.
std::vector<double> tick_depths(const TraceRun& run, double step) {
    std::vector<double> depths;
    for (double i = std::ceil(run.places.front().depth / step + 0.05); i * step < run.places.back().depth - 0.05 * step; i += 1.0)
        depths.push_back(i * step);
    return depths;
}

bool is_numbered(double depth, double step) {
    const double fifth = depth / (step * numbered_tick);
    return std::abs(fifth - std::round(fifth)) < 1e-6;
}

void draw_ticks(SectionDrawing& drawing, const paths::Path& path, const TraceRun& run) {
    const double step = depth_tick_step(drawing);
    Marks marks;
    for (const double depth : tick_depths(run, step)) {
        const Point at = drawing.paper_of(paths::position_at(path, depth));
        const TraceSides sides = sides_at(drawing, path, depth);
        const double length = drawing.tools.style.size_mm(is_numbered(depth, step) ? "depth_tick_long" : "depth_tick");
        marks.push_back(line_of({at, {at.x - length * sides.upper.x, at.y - length * sides.upper.y}},
                                drawing.tools.style.line("depth_tick")));
    }
    drawing.put(Layer::holes, std::move(marks));
}

void draw_end(SectionDrawing& drawing, const paths::Path& path, const TraceRun& last) {
    if (!last.in_slab || !tables::is_drill_hole(path.type)) return;
    const Point at = drawing.paper(last.places.back());
    const std::string depth = length_text(path.drilled_depth, drawing.map());
    WantedLabel label;
    label.label.owner = path.hole;
    label.label.soft_weight = on_foreign_traces;
    label.label.priority = 2;
    label.label.listed_text = path.hole + "\tends at " + depth;
    if (drawing.in_window(at)) {
        const TraceSides sides = sides_at(drawing, path, last.places.back().depth);
        const double half = drawing.tools.style.size_mm("end_of_hole") / 2.0;
        const std::vector<Point> bar{{at.x - half * sides.upper.x, at.y - half * sides.upper.y},
                                     {at.x + half * sides.upper.x, at.y + half * sides.upper.y}};
        drawing.put(Layer::holes, {line_of(bar, drawing.tools.style.line("end_of_hole"))});
        drawing.keep_clear(bar);
        drawing.note(Sign::end_of_hole);
        label.label.at = at;
        label.label.clear_mm = half;
        label.label.lines = {{path.hole + ", " + depth, drawing.tools.style.text("body")}};
    } else {
        const std::vector<std::vector<Point>> seen = drawing::clipped_line(on_paper(drawing, last), drawing.view.window);
        if (seen.empty()) return;
        label.label.at = seen.back().back();
        label.label.clear_mm = 0.5;
        label.label.lines = {{path.hole + " to " + depth, drawing.tools.style.text("body")}};
    }
    drawing.labels.push_back(std::move(label));
}

template <typename Work>
void each_drilled_run(const SectionDrawing& drawing, const Work& work) {
    for (const SectionHole& hole : drawing.content.holes) {
        const paths::Path& path = drawing.results.paths[hole.path];
        if (!hole.shown || path.status == tables::HoleStatus::planned) continue;
        for (const TraceRun& run : hole.runs) {
            const TraceRun drilled = part_between(run, path.start_depth, path.drilled_depth);
            if (drilled.places.size() > 1) work(path, drilled);
        }
    }
}

struct CollarGroup {
    Point at;
    std::vector<const SectionHole*> holes;
};

// Collars that stand at one place on paper have one label.
std::vector<CollarGroup> collar_groups(const SectionDrawing& drawing) {
    std::vector<CollarGroup> groups;
    for (const SectionHole& hole : drawing.content.holes) {
        const paths::Path& path = drawing.results.paths[hole.path];
        if (!hole.shown || drawing.results.records.collars[path.number].parent) continue;
        // A channel's or a face's name stands at its hit.
        if (!tables::is_drill_hole(path.type) && hole.has_point_here) continue;
        const Point at = drawing.paper(hole.runs.front().places.front());
        if (!drawing.in_window(at)) continue;
        const auto near = std::find_if(groups.begin(), groups.end(), [&](const CollarGroup& group) {
            return std::hypot(group.at.x - at.x, group.at.y - at.y) < same_collar_mm;
        });
        if (near == groups.end())
            groups.push_back({at, {&hole}});
        else
            near->holes.push_back(&hole);
    }
    return groups;
}

// Names of the holes of one state, one below the other while they are few: a narrow block stands over its own collar alone.
void add_names(std::vector<drawing::LabelLine>& lines, const std::vector<std::string>& names, const drawing::LabelLine& look) {
    const std::size_t in_line = (names.size() + most_name_lines - 1) / most_name_lines;
    for (std::size_t i = 0; i < names.size(); i += in_line) {
        drawing::LabelLine line = look;
        for (std::size_t j = i; j < std::min(i + in_line, names.size()); ++j) line.text += (j > i ? ", " : "") + names[j];
        if (i + in_line < names.size()) line.text += in_line > 1 ? "," : "";
        lines.push_back(std::move(line));
    }
}

// Names of the holes that are drilled, then of those that are not; how far off the slab their collars stand.
std::vector<drawing::LabelLine> collar_lines(const SectionDrawing& drawing, const CollarGroup& group) {
    const drawing::Style& style = drawing.tools.style;
    std::vector<std::string> drilled, active, planned;
    for (const SectionHole* hole : group.holes) {
        const paths::Path& path = drawing.results.paths[hole->path];
        const CollarState state = collar_state(path.status);
        (state == CollarState::drilled ? drilled : state == CollarState::active ? active : planned).push_back(path.hole);
    }
    std::vector<drawing::LabelLine> lines;
    add_names(lines, drilled, {"", style.text("name")});
    add_names(lines, active, {"", style.text("planned_name"), {{" active", style.text("planned_text")}}});
    add_names(lines, planned, {"", style.text("planned_name"), {{" planned", style.text("planned_text")}}});
    const double offset = group.holes.front()->runs.front().places.front().offset;
    if (std::abs(offset) > drawing.section.half_width)
        lines.push_back({offset_words(drawing, offset), style.text("off_slab_text")});
    return lines;
}

// Where runs begin and end: words near one would seem that hole's.
void mark_ends(SectionDrawing& drawing) {
    for (const SectionHole& hole : drawing.content.holes) {
        if (!hole.shown) continue;
        for (const TraceRun& run : hole.runs)
            if (run.in_slab)
                for (const TracePlace& place : {run.places.front(), run.places.back()})
                    drawing.obstacles.points.push_back(drawing.paper(place));
    }
}

void draw_collars(SectionDrawing& drawing) {
    for (const CollarGroup& group : collar_groups(drawing)) {
        for (const SectionHole* hole : group.holes) {
            const CollarState state = collar_state(drawing.results.paths[hole->path].status);
            drawing.put(Layer::holes, collar_symbol(state, drawing.paper(hole->runs.front().places.front()), drawing.tools));
            drawing.note(state == CollarState::drilled  ? Sign::collar_drilled
                         : state == CollarState::active ? Sign::collar_active
                                                        : Sign::collar_planned);
        }
        const double half = drawing.tools.style.size_mm("collar") / 2.0;
        for (const SectionHole* hole : group.holes) {
            const Point at = drawing.paper(hole->runs.front().places.front());
            drawing.obstacles.boxes.push_back({at.x - half, at.y - half, at.x + half, at.y + half});
        }
        WantedLabel label;
        label.label.owner = drawing.results.paths[group.holes.front()->path].hole;
        label.label.at = group.at;
        label.label.clear_mm = half;
        label.label.lines = collar_lines(drawing, group);
        label.label.soft_weight = on_foreign_traces;
        label.label.priority = 4;
        label.label.listed_text = "collars of " + drawing.results.paths[group.holes.front()->path].hole;
        for (std::size_t i = 1; i < group.holes.size(); ++i)
            label.label.listed_text += ", " + drawing.results.paths[group.holes[i]->path].hole;
        drawing.labels.push_back(std::move(label));
    }
}

}  // namespace

TraceRun part_between(const TraceRun& run, double from_depth, double to_depth) {
    TraceRun part;
    part.in_slab = run.in_slab;
    const auto cut = [](const TracePlace& a, const TracePlace& b, double depth) {
        const double share = (depth - a.depth) / (b.depth - a.depth);
        return TracePlace{depth, a.distance + share * (b.distance - a.distance), a.up + share * (b.up - a.up),
                          a.offset + share * (b.offset - a.offset)};
    };
    for (std::size_t i = 0; i + 1 < run.places.size(); ++i) {
        const TracePlace& a = run.places[i];
        const TracePlace& b = run.places[i + 1];
        const double from = std::max(a.depth, from_depth), to = std::min(b.depth, to_depth);
        if (!(to > from)) continue;
        if (part.places.empty()) part.places.push_back(cut(a, b, from));
        part.places.push_back(cut(a, b, to));
    }
    return part;
}

TraceSides sides_at(const SectionDrawing& drawing, const paths::Path& path, double depth) {
    const Eigen::Vector3d direction = paths::direction_at(path, depth);
    double x = drawing.view.frame.right.dot(direction), y = direction.z();
    const double norm = std::hypot(x, y);
    if (norm < 1e-6) {
        x = 0.0;
        y = -1.0;
    } else {
        x /= norm;
        y /= norm;
    }
    TraceSides sides{{x, y}, {-y, x}};
    if (sides.upper.y < -1e-9 || (std::abs(sides.upper.y) <= 1e-9 && sides.upper.x > 0.0)) sides.upper = {y, -x};
    return sides;
}

void draw_traces(SectionDrawing& drawing) {
    drawing.drawn.depth_tick = drawing.map().length(depth_tick_step(drawing));
    each_drilled_run(drawing, [&](const paths::Path&, const TraceRun& run) {
        if (!run.in_slab) draw_off_slab(drawing, run);
    });
    draw_rock_strips(drawing);
    drawing.off_slab_at = drawing.items.size();
    each_drilled_run(drawing, [&](const paths::Path& path, const TraceRun& run) {
        if (!run.in_slab) return;
        draw_in_slab(drawing, path, run);
        draw_ticks(drawing, path, run);
        if (run.places.back().depth >= path.drilled_depth - 0.01) draw_end(drawing, path, run);
    });
    draw_collars(drawing);
    mark_ends(drawing);
}

void want_offset_remarks(SectionDrawing& drawing) {
    each_drilled_run(drawing, [&](const paths::Path& path, const TraceRun& run) {
        if (!run.in_slab) want_remark(drawing, run, path.hole, "off_slab_text");
    });
    for (const SectionHole& hole : drawing.content.holes) {
        const paths::Path& path = drawing.results.paths[hole.path];
        for (const TraceRun& run : hole.runs) {
            const TraceRun ahead = part_between(run, std::max(path.start_depth, path.drilled_depth), path.end_depth);
            if (hole.shown && !run.in_slab && ahead.places.size() > 1) want_remark(drawing, ahead, path.hole, "planned_text");
        }
    }
}

void draw_depth_figures(SectionDrawing& drawing, const std::vector<drawing::Box>& taken) {
    const double step = depth_tick_step(drawing);
    std::vector<drawing::Box> boxes = taken;
    for (const SectionHole& hole : drawing.content.holes) {
        const paths::Path& path = drawing.results.paths[hole.path];
        if (!hole.shown) continue;
        for (const TraceRun& run : hole.runs) {
            if (!run.in_slab) continue;
            for (const double depth : tick_depths(run, step)) {
                if (!is_numbered(depth, step)) continue;
                const bool ahead = depth > path.drilled_depth;
                drawing::TextLook look = drawing.tools.style.text(ahead ? "planned_text" : "depth_figure");
                const Point at = drawing.paper_of(paths::position_at(path, depth));
                const TraceSides sides = sides_at(drawing, path, depth);
                const double off = drawing.tools.style.size_mm("depth_figure_off") + 0.6;
                const Point centre{at.x - off * sides.upper.x, at.y - off * sides.upper.y};
                const double half_cap = drawing::cap_height_mm(drawing.tools.fonts, look) / 2.0;
                const Mark mark = words({centre.x, centre.y - half_cap}, length_figure(depth, drawing.map(), 0), look,
                                        drawing::Anchor::centre, drawing.tools.style.size_mm("halo"));
                const drawing::Box box = drawing::grown(box_of_words(std::get<drawing::Text>(mark), drawing.tools.fonts), 0.3);
                const bool covered =
                    !drawing.in_window(centre, 4.0) ||
                    std::any_of(boxes.begin(), boxes.end(), [&](const Box& other) { return drawing::overlap(box, other); }) ||
                    std::any_of(drawing.obstacles.lines.begin(), drawing.obstacles.lines.end(),
                                [&](const drawing::Segment& line) { return drawing::touches(line, box); });
                if (covered) continue;
                boxes.push_back(box);
                drawing.put(Layer::holes, {mark});
            }
        }
    }
}

}  // namespace selvage::sheets
