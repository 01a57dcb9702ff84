#include "sheets/level_marks.h"

#include "base/text.h"
#include "drawing/clipping.h"
#include "drawing/polyline.h"
#include "drawing/symbols.h"
#include "mesh/slice.h"
#include "paths/locate.h"
#include "sheets/drawn_kind.h"
#include "sheets/label_text.h"
#include "sheets/long_section_marks.h"
#include "sheets/pierce_sign.h"
#include "sheets/plan_marks.h"
#include "sheets/site_marks.h"
#include "sheets/starts.h"
#include "sheets/symbols.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <set>
#include <utility>

namespace selvage::sheets {

namespace {

constexpr double chord_mm = 0.8;        // points of a trace this far apart along the hole, on paper
constexpr double least_arrow_mm = 2.5;  // a shorter trace has no arrow

struct TraceLook {
    const char* line;
    const char* colour;
    Sign sign;
};

TraceLook look_of(paths::PathKind kind) {
    switch (kind) {
        case paths::PathKind::surveyed: return {"trace", "ink", Sign::trace_on_plan};
        case paths::PathKind::extrapolated: return {"trace_run_on", "ink", Sign::trace_run_on};
        default: return {"trace_planned", "planned", Sign::planned_trace};
    }
}

void add_piece(LevelTraces& traces, const std::string& hole, std::vector<Point> line, paths::PathKind kind, bool ends_here,
               const PaperFrame& frame, DrawnSigns& drawn, const Tools& tools) {
    if (line.size() < 2) return;
    const bool seen = std::any_of(line.begin(), line.end(), [&](const Point& at) { return is_on_plan(frame, at); });
    if (!seen) return;
    const TraceLook look = look_of(kind);
    if (look.sign != Sign::trace_on_plan) drawn.signs.insert(look.sign);  // that is the legend's arrow
    traces.marks.push_back(line_of(line, tools.style.line(look.line)));
    if (const double length = drawing::length_of(line); ends_here && length >= least_arrow_mm) {
        const drawing::PointAlong end = drawing::point_along(line, length);
        traces.marks.emplace_back(
            drawing::arrow_head(end.at, end.dx, end.dy, tools.style.size_mm("arrow"), tools.style.colour(look.colour)));
    }
    traces.pieces.push_back({hole, std::move(line), look.sign == Sign::planned_trace});
}

void add_hole(LevelTraces& traces, const paths::Path& path, double low, double high, const PaperFrame& frame, DrawnSigns& drawn,
              const Tools& tools) {
    const double length = path.end_depth - path.start_depth;
    const int steps = std::max(1, static_cast<int>(std::ceil(length / (chord_mm * frame.metres_per_mm))));
    std::vector<double> depths;
    for (int i = 0; i <= steps; ++i) depths.push_back(path.start_depth + length * i / steps);
    for (const double change : {path.surveyed_depth, path.drilled_depth})
        if (change > path.start_depth && change < path.end_depth) depths.push_back(change);
    std::sort(depths.begin(), depths.end());
    std::vector<Point> line;
    paths::PathKind kind = paths::PathKind::surveyed;
    for (std::size_t i = 1; i < depths.size(); ++i) {
        const Eigen::Vector3d from = paths::position_at(path, depths[i - 1]), to = paths::position_at(path, depths[i]);
        // The part of the chord within the slab.
        double first = 0.0, last = 1.0;
        const double rise = to.z() - from.z();
        for (const auto& [limit, side] : {std::pair{low, 1.0}, std::pair{high, -1.0}}) {
            const double in_from = side * (from.z() - limit), in_to = side * (to.z() - limit);
            if (in_from < 0.0 && in_to < 0.0) last = -1.0;
            if (in_from < 0.0 && in_to >= 0.0) first = std::max(first, (limit - from.z()) / rise);
            if (in_from >= 0.0 && in_to < 0.0) last = std::min(last, (limit - from.z()) / rise);
        }
        const paths::PathKind here = drawn_kind(path, (depths[i - 1] + depths[i]) / 2.0);
        if (first >= last || (!line.empty() && here != kind)) {
            add_piece(traces, path.hole, std::move(line), kind, first >= last, frame, drawn, tools);
            line.clear();
        }
        if (first >= last) continue;
        kind = here;
        if (line.empty()) line.push_back(frame.paper_from_drawn((from + first * (to - from)).head<2>()));
        line.push_back(frame.paper_from_drawn((from + last * (to - from)).head<2>()));
        if (last < 1.0) {
            add_piece(traces, path.hole, std::move(line), kind, true, frame, drawn, tools);
            line.clear();
        }
    }
    add_piece(traces, path.hole, std::move(line), kind, true, frame, drawn, tools);
}

}  // namespace

LevelTraces level_traces(const Results& results, const Level& level, double half, const PaperFrame& frame, DrawnSigns& drawn,
                         const Tools& tools) {
    LevelTraces traces;
    for (const paths::Path& path : results.paths)
        if (path.status != tables::HoleStatus::cancelled)
            add_hole(traces, path, level.elevation - half, level.elevation + half, frame, drawn, tools);
    for (const paths::Path& path : results.paths) {
        const double off = path.collar.z() - level.elevation;
        const Point at = on_plan(frame, path.collar);
        if (!tables::is_drill_hole(path.type) && off >= -half && off < half && is_on_plan(frame, at))
            append(traces.starts, start_symbol(path.type, path.status, at, drawn, tools));
    }
    return traces;
}

OpeningSigns level_openings(const Results& results, const Level& level, double half, const PaperFrame& frame, DrawnSigns& drawn,
                            const Tools& tools) {
    std::vector<OpeningOnSheet> here;
    for (OpeningInSpace& opening : openings_in_space(results)) {
        const double off = opening.point.z() - level.elevation;
        const Point at = on_plan(frame, opening.point);
        if (off >= -half && off < half && is_on_plan(frame, at)) here.push_back({std::move(opening.opened), at});
    }
    return opening_signs(here, results.records.frame, drawn, tools);
}

LevelPoints level_points(const Results& results, const Level& level, const GradeClasses& classes) {
    LevelPoints points;
    for (const intercepts::Intercept* hit : level.hits)
        points.hits.push_back({hit, 0, hit->point.head<2>(), sign_of(*hit, classes, results.records.frame),
                               accumulation_of(*hit, classes, results.records.frame)});
    for (const MissOnLevel& miss : level.misses) {
        points.misses.push_back({miss.none, miss.none->point.head<2>()});
        points.miss_veins.push_back(miss.vein);
    }
    for (const forecast::Pierce* pierce : level.pierces) {
        const paths::Path* path = paths::path_of(results.paths, pierce->hole);
        points.pierces.push_back({pierce,
                                  path != nullptr ? path->status : tables::HoleStatus::planned,
                                  pierce->point.head<2>(),
                                  {},
                                  sign_of(*pierce, results)});
    }
    return points;
}

Marks point_marks(const LevelPoints& points, const PaperFrame& frame, DrawnSigns& drawn, const Tools& tools) {
    Marks marks;
    for (const PierceOnPlane& pierce : points.pierces) {
        const Point at = frame.paper_from_drawn(pierce.place);
        append(marks, pierce_symbol(pierce.sign, at, tools));
        drawn.signs.insert(pierce.sign);
    }
    for (const MissOnPlane& miss : points.misses)
        append(marks, hit_symbol(HitSign::no_vein, frame.paper_from_drawn(miss.place), tools));
    for (const HitOnPlane& hit : points.hits) append(marks, hit_symbol(hit.sign, frame.paper_from_drawn(hit.place), tools));
    Marks in_doubt = little_core_marks(points.hits, frame, tools);
    if (!in_doubt.empty()) drawn.signs.insert(Sign::little_core);
    append(marks, std::move(in_doubt));
    return marks;
}

std::vector<Box> point_boxes(const LevelPoints& points, const PaperFrame& frame, const Tools& tools) {
    std::vector<Box> boxes;
    const auto add = [&](const Eigen::Vector2d& place, double width) {
        const Point at = frame.paper_from_drawn(place);
        boxes.push_back({at.x - width / 2.0, at.y - width / 2.0, at.x + width / 2.0, at.y + width / 2.0});
    };
    for (const HitOnPlane& hit : points.hits) add(hit.place, hit_symbol_width_mm(hit.sign, tools));
    for (const MissOnPlane& miss : points.misses) add(miss.place, hit_symbol_width_mm(HitSign::no_vein, tools));
    for (const PierceOnPlane& pierce : points.pierces)
        add(pierce.place, tools.style.size_mm("planned_pierce") + 2.0 * tools.style.size_mm("planned_pierce_tick"));
    for (const Box& box : little_core_boxes(points.hits, frame, tools)) boxes.push_back(box);
    return boxes;
}

LevelFaults level_faults(const Results& results, const Level& level, const PaperFrame& frame, DrawnSigns& drawn,
                         const Tools& tools) {
    const auto place = [&](const Point& at) {
        const Eigen::Vector2d there = frame.drawn_from_paper(at);
        return Eigen::Vector3d(there.x(), there.y(), level.elevation);
    };
    std::set<std::size_t> veins;
    for (const BodyOnLevel& body : level.bodies) veins.insert(body.vein);
    LevelFaults faults;
    for (StatedFault& fault : stated_faults(results, place, frame.window, &results.site.ground)) {
        append(faults.lines, fault_marks({fault}, tools));
        faults.lines.push_back(dip_tick(fault, tools));
        faults.names.push_back(line_label(name_with_dip(fault), fault.line, tools, older_words(results, fault.name, veins)));
        drawn.signs.merge(fault_signs({fault}));
    }
    return faults;
}

LevelWorkings level_workings(const site::Site& site, const Level& level, const PaperFrame& frame, DrawnSigns& drawn,
                             const Tools& tools) {
    LevelWorkings workings;
    const auto paper = [&frame](const Eigen::Vector2d& place) { return frame.paper_from_drawn(place); };
    for (const site::Working& working : site.workings) {
        Rings rings;
        bool open = false;
        if (working.solid != nullptr) {
            for (const mesh::SliceLine& line : mesh::slice(working.solid->mesh, plane_of(level))) {
                std::vector<Point> points;
                for (const Eigen::Vector3d& point : line.points) points.push_back(paper(point.head<2>()));
                if (line.closed)
                    rings.push_back(std::move(points));
                else
                    workings.marks.push_back(line_of(std::move(points), tools.style.line("workings")));
                open = open || !line.closed;
            }
            if (!rings.empty() || open) drawn.signs.insert(Sign::workings);
        } else {
            for (const site::Ring& ring : working.outline) {
                rings.emplace_back();
                for (const Eigen::Vector2d& place : ring) rings.back().push_back(paper(place));
            }
        }
        const auto seen = [&](const std::vector<Point>& ring) {
            return std::any_of(ring.begin(), ring.end(), [&](const Point& at) { return is_on_plan(frame, at); });
        };
        if (std::none_of(rings.begin(), rings.end(), seen)) continue;
        if (working.solid == nullptr) drawn.signs.insert(Sign::workings_of_unknown_depth);
        append(workings.marks, working.solid != nullptr ? workings_area(rings, tools) : workings_shadow(rings, tools));
        if (working.name.empty()) continue;
        rings.front().push_back(rings.front().front());
        workings.names.push_back(line_label(working.name, rings.front(), tools));
        workings.names.back().owner = "workings " + working.name;
    }
    return workings;
}

namespace {

// ", 12 m above" the level; nothing where it lies on it.
std::string off_words(const Eigen::Vector3d& point, const Level& level, const base::MapFrame& map) {
    const double off = point.z() - level.elevation;
    if (std::abs(off) < base::metres_per(map.unit) / 2.0) return {};
    return ", " + length_text(std::abs(off), map, 0) + (off > 0.0 ? " above" : " below");
}

}  // namespace

std::vector<NamedLabel> level_labels(const Level& level, const LevelPoints& points, const LevelTraces& traces,
                                     const Results& results, const GradeClasses& classes, const PaperFrame& frame,
                                     const Tools& tools) {
    const base::MapFrame& map = results.records.frame;
    std::vector<NamedLabel> labels;
    std::set<std::string> named;
    const bool several = results.veins.size() > 1;
    const auto add = [&](NamedLabel label, const std::string& hole, const std::string& vein, const std::string& off) {
        std::string& place = label.label.lines[label.place_line].text;  // of a forecast it goes on: "vein likely at 275 m;"
        if (several) place = vein + ": " + place;
        const bool goes_on = !place.empty() && place.back() == ';';
        if (goes_on) place.pop_back();
        place += off + (goes_on ? ";" : "");
        label.label.listed_text = joined_lines(label);
        labels.push_back(std::move(label));
        named.insert(hole);
    };
    for (const HitOnPlane& hit : points.hits)
        add(named_hit(hit, results, classes, frame, tools), hit.hit->hole, hit.hit->vein, off_words(hit.hit->point, level, map));
    for (std::size_t i = 0; i < points.misses.size(); ++i) {
        const std::string& vein = results.veins[points.miss_veins[i]].name();
        add(named_miss(points.misses[i], vein, map, frame, tools), points.misses[i].none->hole, vein,
            off_words(points.misses[i].none->point, level, map));
    }
    for (const PierceOnPlane& pierce : points.pierces) {
        if (!is_on_plan(frame, frame.paper_from_drawn(pierce.place))) continue;
        add(named_pierce(pierce, results, frame, tools), pierce.pierce->hole, pierce.pierce->vein,
            off_words(pierce.pierce->point, level, map));
    }
    for (const LevelTraces::Piece& piece : traces.pieces) {
        if (!named.insert(piece.hole).second) continue;
        NamedLabel label;
        label.label.owner = piece.hole + " trace";
        label.label.at = piece.line.back();
        for (const double share : {0.0, 0.5, 0.75, 0.25})
            label.label.also_at.push_back(drawing::point_along(piece.line, share * drawing::length_of(piece.line)).at);
        label.label.clear_mm = 0.6;
        label.label.priority = 1;
        const paths::Path* path = paths::path_of(results.paths, piece.hole);
        const bool active = path != nullptr && path->status == tables::HoleStatus::active;
        label.label.lines = {
            {piece.hole + (active ? " active" : ""), tools.style.text(piece.planned ? "planned_text" : "body"), {}}};
        label.label.listed_text = piece.hole + " passes here";
        label.planned = piece.planned;
        labels.push_back(std::move(label));
    }
    return labels;
}

}  // namespace selvage::sheets
