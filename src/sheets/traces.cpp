#include "sheets/traces.h"

#include "drawing/clipping.h"
#include "drawing/polyline.h"
#include "sheets/label_text.h"
#include "sheets/rock_strip.h"
#include "sheets/section_labels.h"
#include "sheets/starts.h"
#include "sheets/symbols.h"
#include "sheets/trace_runs.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace selvage::sheets {

namespace {

constexpr double far_offset_spacings = 2.0;  // off the slab by so many spacings: the palest grey
constexpr int numbered_tick = 5;
constexpr std::size_t most_name_lines = 4;  // of the holes of one state at one collar

double middle_offset(const TraceRun& run) { return run.places[run.places.size() / 2].offset; }

drawing::Colour grey_of(const SectionDrawing& drawing, double offset) {
    const double beyond = std::abs(offset) - drawing.section.half_width;
    const double share = std::clamp(beyond / (far_offset_spacings * drawing.set.spacing), 0.0, 1.0);
    const drawing::Colour near = drawing.tools.style.colour("off_slab"), far = drawing.tools.style.colour("off_slab_far");
    const auto mixed = [share](int a, int b) { return static_cast<int>(std::lround(a + share * (b - a))); };
    return {mixed(near.red, far.red), mixed(near.green, far.green), mixed(near.blue, far.blue)};
}

void draw_off_slab(SectionDrawing& drawing, const TraceRun& run) {
    const std::vector<Point> line = on_paper(drawing, run);
    const double offset = middle_offset(run);
    drawing.off_slab.push_back(line_of(line, with_colour(drawing.tools.style.line("trace_off_slab"), grey_of(drawing, offset))));
    for (std::size_t i = 0; i + 1 < line.size(); ++i) drawing.obstacles.soft_lines.push_back({line[i], line[i + 1]});
    drawing.note(Sign::trace_off_slab);
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
    const bool active = path.status == tables::HoleStatus::active;
    WantedLabel label;
    label.label.owner = path.hole;
    label.label.soft_weight = on_foreign_traces;
    label.label.priority = 2;
    label.label.listed_text = path.hole + (active ? "\tdrilled to " : "\tends at ") + depth;
    if (drawing.in_window(at)) {
        const TraceSides sides = sides_at(drawing, path, last.places.back().depth);
        const double half = drawing.tools.style.size_mm("end_of_hole") / 2.0;
        const std::vector<Point> bar{{at.x - half * sides.upper.x, at.y - half * sides.upper.y},
                                     {at.x + half * sides.upper.x, at.y + half * sides.upper.y}};
        const Marks end{line_of(bar, drawing.tools.style.line("end_of_hole"))};
        drawing.put(Layer::holes, active ? drilled_to_symbol(at, drawing.tools) : end);
        drawing.keep_clear(bar);
        drawing.note(active ? Sign::drilled_to : Sign::end_of_hole);
        label.label.at = at;
        label.label.clear_mm = half;
        label.label.lines = {{path.hole + (active ? " drilled to " : ", ") + depth, drawing.tools.style.text("body")}};
    } else {
        const std::vector<std::vector<Point>> seen = drawing::clipped_line(on_paper(drawing, last), drawing.tile.core);
        if (seen.empty()) return;
        label.label.at = seen.back().back();
        label.label.clear_mm = 0.5;
        label.label.lines = {{path.hole + " to " + depth, drawing.tools.style.text("body")}};
    }
    drawing.labels.push_back(std::move(label));
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

// Names of the holes that are drilled, then of those that are not; from where to where off the section their collars stand, if
// one of them lies off the slab.
std::vector<drawing::LabelLine> collar_lines(const SectionDrawing& drawing, const CollarGroup& group) {
    const drawing::Style& style = drawing.tools.style;
    const auto offset_of = [](const SectionHole* hole) { return hole->runs.front().places.front().offset; };
    const auto [least, most] =
        std::minmax_element(group.holes.begin(), group.holes.end(),
                            [&](const SectionHole* a, const SectionHole* b) { return offset_of(a) < offset_of(b); });
    const double half_width = drawing.section.half_width;
    // Holes in front and behind would not be told apart by a range: each has its own distance.
    const bool each = offset_of(*least) < -half_width && offset_of(*most) > half_width;
    std::vector<std::string> drilled, active, planned;
    for (const SectionHole* hole : group.holes) {
        const paths::Path& path = drawing.results.paths[hole->path];
        const CollarState state = collar_state(path.status);
        (state == CollarState::drilled  ? drilled
         : state == CollarState::active ? active
                                        : planned)
            .push_back(path.hole + (each ? " (" + offset_words(drawing, offset_of(hole)) + ")" : ""));
    }
    std::vector<drawing::LabelLine> lines;
    add_names(lines, drilled, {"", style.text("name")});
    add_names(lines, active, {"", style.text("planned_name"), {{" active", style.text("planned_text")}}});
    add_names(lines, planned, {"", style.text("planned_name"), {{" planned", style.text("planned_text")}}});
    if (!each && std::max(-offset_of(*least), offset_of(*most)) > half_width)
        lines.push_back({behind_range_words(offset_of(*least), offset_of(*most), drawing.map()), style.text("off_slab_text")});
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
            const paths::Path& path = drawing.results.paths[hole->path];
            const Point at = drawing.paper(hole->runs.front().places.front());
            drawing.put(Layer::holes, start_symbol(path.type, path.status, at, drawing.drawn, drawing.tools));
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

Marks drilled_to_symbol(const Point& at, const Tools& tools) {
    const double half = tools.style.size_mm("end_of_hole") * 0.4;
    const Box box{at.x - half, at.y - half, at.x + half, at.y + half};
    const drawing::Colour ink = tools.style.colour("ink");
    return {box_area(box, plain(tools.style.colour("white"))), box_area({box.left, at.y, box.right, box.top}, plain(ink)),
            box_outline(box, with_colour(tools.style.line("planned_edge"), ink))};
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
    const std::vector<HoleRun> runs = drilled_runs(drawing);
    for (const HoleRun& hole : runs)
        if (!hole.run.in_slab) draw_off_slab(drawing, hole.run);
    draw_rock_strips(drawing);
    drawing.off_slab_at = drawing.items.size();
    for (const HoleRun& hole : runs) {
        if (!hole.run.in_slab) continue;
        draw_in_slab(drawing, *hole.path, hole.run);
        draw_ticks(drawing, *hole.path, hole.run);
        if (comes_to_its_end(hole)) draw_end(drawing, *hole.path, hole.run);
    }
    draw_collars(drawing);
    mark_ends(drawing);
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
