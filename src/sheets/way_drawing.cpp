#include "sheets/way_drawing.h"

#include "drawing/polyline.h"
#include "paths/locate.h"
#include "sheets/broken_lines.h"
#include "sheets/call_and_stop.h"
#include "sheets/clearance.h"
#include "sheets/drawn_side.h"
#include "sheets/label_text.h"
#include "sheets/off_target.h"
#include "sheets/symbols.h"
#include "sheets/traces.h"

#include <algorithm>
#include <cmath>
#include <optional>

namespace selvage::sheets {

namespace {

constexpr double beside_mm = 2.6;  // between a trace and a bracket beside it

bool is_ahead(const paths::Path& path) {
    return path.status == tables::HoleStatus::planned || path.status == tables::HoleStatus::active;
}

void want_label(SectionDrawing& drawing, const std::string& owner, std::vector<Point> places, std::vector<std::string> lines,
                const char* role, int priority, double clear_mm) {
    places.erase(std::remove_if(places.begin(), places.end(), [&](const Point& at) { return !drawing.in_window(at); }),
                 places.end());
    if (places.empty()) return;
    WantedLabel wanted;
    wanted.label.owner = owner;
    wanted.label.at = places.front();
    wanted.label.also_at.assign(places.begin() + 1, places.end());
    wanted.label.clear_mm = clear_mm;
    wanted.label.priority = priority;
    for (const std::string& line : lines) wanted.label.lines.push_back({line, drawing.tools.style.text(role), {}});
    wanted.label.may_be_listed = false;  // the words of the forecast say it too
    wanted.planned = true;
    drawing.labels.push_back(std::move(wanted));
}

void draw_fault(SectionDrawing& drawing, const paths::Path& path, const faults::FaultAhead& fault) {
    const double from = std::max(fault.depth_p10, path.start_depth), to = std::min(fault.depth_p90, path.end_depth);
    if (!(to > from)) return;
    const auto beside = [&](double depth) {
        const Point at = drawing.paper_of(paths::position_at(path, depth)), side = sides_at(drawing, path, depth).upper;
        return Point{at.x + beside_mm * side.x, at.y + beside_mm * side.y};
    };
    const int steps = std::max(1, static_cast<int>(std::ceil((to - from) / (2.0 * drawing.view.metres_per_mm))));
    std::vector<Point> line;
    for (int i = 0; i <= steps; ++i) line.push_back(beside(from + (to - from) * i / steps));
    const Point side = sides_at(drawing, path, (from + to) / 2.0).upper;
    drawing.put(Layer::forecasts, way_bracket(line, {-side.x, -side.y}, drawing.tools));
    drawing.keep_clear(line);
    drawing.note(Sign::planned_fault);
    std::vector<Point> places;
    if (fault.crosses && fault.depth <= to) {
        const Point at = drawing.paper_of(paths::position_at(path, fault.depth));
        const std::vector<Point> stroke{beside(fault.depth), at};
        drawing.put(Layer::forecasts, {line_of(stroke, drawing.tools.style.line("planned_edge"))});
        places.push_back(stroke.front());
    }
    if (places.empty())
        for (const double share : {0.5, 0.3, 0.7, 0.15, 0.85})
            places.push_back(drawing::point_along(line, share * drawing::length_of(line)).at);
    std::vector<std::string> lines{(fault.crosses ? "" : "perhaps ") + fault.name + " " +
                                   fault_ahead_figures(fault, drawing.map())};
    if (fault.crosses)
        if (std::string off = off_drawn_words(drawing, fault.name, paths::position_at(path, fault.depth)); !off.empty())
            lines.push_back(std::move(off));
    want_label(drawing, path.hole + " " + fault.name, std::move(places), std::move(lines), "planned_text", 4, 0.6);
}

void draw_near(SectionDrawing& drawing, const paths::Path& path) {
    for (const planning::NearHole& near : near_ahead(path, drawing.results).under) {
        const Point at = drawing.paper_of(paths::position_at(path, near.depth));
        if (!drawing.in_window(at)) continue;
        drawing.put(Layer::labels, danger_symbol(at, drawing.tools));
        constexpr double half = danger_width_mm / 2.0 + 0.3;
        drawing.obstacles.boxes.push_back({at.x - half, at.y - half, at.x + half, at.y + half});
        drawing.note(Sign::too_near);
        want_label(drawing, path.hole + " near " + near.hole, {at}, {path.hole + ": " + near_hole_words(near, drawing.map())},
                   "name", 5, half);
    }
}

// On the section's slab, or anywhere in a hole's own plane.
bool is_target_here(const SectionDrawing& drawing, const Eigen::Vector3d& point) {
    return drawing.set.of_pack != nullptr || slab_number(drawing.set, point) == drawing.section.number;
}

// `off`: how far off it the hole comes; nothing where no forecast tells.
void draw_target(SectionDrawing& drawing, const std::string& hole, const tables::Target& target,
                 const std::optional<double>& off) {
    if (!is_target_here(drawing, *target.point)) return;
    const Point at = drawing.paper_of(*target.point);
    if (!drawing.in_window(at)) return;
    const Marks marks = target_marks(at, target.radius.value_or(0.0) / drawing.view.metres_per_mm, drawing.tools);
    add_segments(drawing.obstacles.soft_lines, marks);
    drawing.put(Layer::forecasts, marks);
    constexpr double half = target_cross_mm / 2.0 + 0.2;
    drawing.obstacles.boxes.push_back({at.x - half, at.y - half, at.x + half, at.y + half});
    drawing.note(Sign::target);
    const std::string words = "target of " + hole + (off ? ", " + length_text(*off, drawing.map(), 0) + " off" : "");
    want_label(drawing, hole + " target", {at}, {words}, "planned_text", 4, half);
}

// In a hole's own plane its target as its card shows it, elsewhere those that drawings show.
void draw_targets(SectionDrawing& drawing, const std::string& hole) {
    if (drawing.set.of_pack == nullptr || drawing.section.name != hole) {
        for (const OffTarget& off : targets_to_show(drawing.results))
            if (off.pierce->hole == hole) draw_target(drawing, hole, *off.target, off.metres);
        return;
    }
    for (const tables::Collar& collar : drawing.results.records.collars) {
        if (collar.hole != hole || !collar.target || !collar.target->point) continue;
        const std::optional<OffTarget> off = off_target(collar, drawing.results);
        draw_target(drawing, hole, *collar.target, off ? std::optional<double>(off->metres) : std::nullopt);
    }
}

}  // namespace

void draw_way(SectionDrawing& drawing) {
    for (const SectionHole& hole : drawing.content.holes) {
        const paths::Path& path = drawing.results.paths[hole.path];
        if (!hole.shown || !is_ahead(path)) continue;
        for (const faults::FaultAhead& fault : faults_on_way(path, drawing.results)) draw_fault(drawing, path, fault);
        draw_near(drawing, path);
        draw_targets(drawing, path.hole);
    }
}

std::vector<std::pair<std::string, std::string>> way_words(const std::string& hole, const Results& results) {
    const base::MapFrame& map = results.records.frame;
    std::vector<std::pair<std::string, std::string>> words;
    const paths::Path* path = paths::path_of(results.paths, hole);
    if (path == nullptr) return words;
    if (const std::string near = too_near_words(near_ahead(*path, results), map); !near.empty())
        words.emplace_back("Too near", near + "; " + length_text(results.project.plan.clearance, map, 0) + " wanted.");
    for (const OffTarget& off : targets_to_show(results))
        if (off.pierce->hole == hole)
            words.emplace_back("Target", "if left alone " + off_target_words(off, map) + (off.outside ? ": outside." : "."));
    for (const faults::FaultAhead& fault : faults_on_way(*path, results))
        words.emplace_back("Fault", fault_ahead_words(fault, map) + ".");
    return words;
}

}  // namespace selvage::sheets
