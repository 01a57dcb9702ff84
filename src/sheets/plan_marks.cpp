#include "sheets/plan_marks.h"

#include "base/text.h"
#include "drawing/clipping.h"
#include "drawing/polyline.h"
#include "drawing/symbols.h"
#include "paths/locate.h"
#include "sheets/clearance.h"
#include "sheets/doubt.h"
#include "sheets/drawn_kind.h"
#include "sheets/ground.h"
#include "sheets/label_text.h"
#include "sheets/pierce_sign.h"
#include "sheets/starts.h"
#include "sheets/symbols.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <optional>
#include <utility>

namespace selvage::sheets {

namespace {

constexpr double chord_mm = 0.8;  // points of a trace this far apart on paper
constexpr std::ptrdiff_t many_lines = 1000;
constexpr double strike_bar_mm = 4.6, dip_tick_mm = 1.5, figure_off_mm = 2.6;
constexpr double section_overhang_mm = 7.0;
constexpr double name_step_mm = 1.5;  // a section's name that finds no room is drawn in by such steps

struct TraceLook {
    const char* line;
    Sign sign;
};

TraceLook look_of(paths::PathKind kind) {
    switch (kind) {
        case paths::PathKind::surveyed: return {"trace", Sign::trace_on_plan};
        case paths::PathKind::extrapolated: return {"trace_run_on", Sign::trace_run_on};
        default: return {"trace_planned", Sign::planned_trace};
    }
}

// Depths at which a trace is taken: even steps, and where its kind changes.
std::vector<double> depths_of(const paths::Path& path, double step) {
    std::vector<double> depths;
    const double length = path.end_depth - path.start_depth;
    const auto count = static_cast<std::size_t>(std::max(1.0, std::ceil(length / step)));
    for (std::size_t i = 0; i <= count; ++i)
        depths.push_back(path.start_depth + length * static_cast<double>(i) / static_cast<double>(count));
    for (const double change : {path.surveyed_depth, path.drilled_depth})
        if (change > path.start_depth && change < path.end_depth) depths.push_back(change);
    std::sort(depths.begin(), depths.end());
    return depths;
}

// Where the figure of a dip may stand from its outcrop, the best first, as unit steps: down the dip, slanting, at the bar's ends,
// behind.
std::vector<Eigen::Vector2d> figure_sides(const Eigen::Vector2d& down, const Eigen::Vector2d& strike) {
    constexpr double at_an_end = 1.4;  // past the end of the bar
    return {down, (down + strike).normalized() * 1.2, (down - strike).normalized() * 1.2, at_an_end * strike, -at_an_end * strike,
            -down};
}

// Sets a section's name before the start of its line, drawn in as far as need be; gives where the line starts.
Point named_end(PlanSections& made, const drawing::Segment& line, const std::string& name, const std::vector<Box>& taken,
                const Tools& tools) {
    const drawing::TextLook& look = tools.style.text("section_name");
    const double half = drawing::text_width_mm(tools.fonts, look, name) / 2.0, cap = drawing::cap_height_mm(tools.fonts, look);
    const double length = std::hypot(line.b.x - line.a.x, line.b.y - line.a.y);
    const double ux = (line.b.x - line.a.x) / length, uy = (line.b.y - line.a.y) / length;
    const double off = std::abs(ux) * half + std::abs(uy) * cap / 2.0 + 0.9;
    for (double drawn_in = 0.0; drawn_in < length / 3.0; drawn_in += name_step_mm) {
        const Point start{line.a.x + drawn_in * ux, line.a.y + drawn_in * uy}, centre{start.x - off * ux, start.y - off * uy};
        const Box box{centre.x - half, centre.y - cap / 2.0, centre.x + half, centre.y + cap / 2.0};
        const auto in_the_way = [&](const Box& other) { return drawing::overlap(drawing::grown(box, 0.5), other); };
        if (std::any_of(taken.begin(), taken.end(), in_the_way) || std::any_of(made.boxes.begin(), made.boxes.end(), in_the_way))
            continue;
        made.boxes.push_back(box);
        drawing::Text text{{centre.x, centre.y - cap / 2.0},           name, look, drawing::Anchor::centre, false, 0.0,
                           destination_of_sheet("cross-section", name)};
        made.names.emplace_back(std::move(text));
        return start;
    }
    return line.a;
}

}  // namespace

Point on_plan(const PaperFrame& frame, const Eigen::Vector3d& point) { return frame.paper_from_drawn(point.head<2>()); }

bool is_on_plan(const PaperFrame& frame, const Point& at) {
    const Box inner = drawing::grown(frame.window, -2.0);
    return at.x > inner.left && at.x < inner.right && at.y > inner.bottom && at.y < inner.top;
}

Marks pad_symbol(const Point& at, const Tools& tools) {
    return {box_outline({at.x - pad_half_mm, at.y - pad_half_mm, at.x + pad_half_mm, at.y + pad_half_mm},
                        tools.style.line("symbol_edge"))};
}

Marks plan_pads(const Results& results, const PaperFrame& frame, const Tools& tools) {
    Marks marks;
    for (const tables::Pad& pad : results.records.pads)
        if (const Point at = on_plan(frame, pad.position); is_on_plan(frame, at)) append(marks, pad_symbol(at, tools));
    return marks;
}

Marks plan_traces(const Results& results, const PaperFrame& frame, DrawnSigns& drawn, const Tools& tools) {
    Marks marks;
    for (const paths::Path& path : results.paths) {
        std::vector<Point> piece;
        std::optional<paths::PathKind> kind;
        const auto finish = [&] {
            if (piece.size() < 2 || !kind) return;
            marks.push_back(line_of(piece, tools.style.line(look_of(*kind).line)));
            drawn.signs.insert(look_of(*kind).sign);
        };
        const std::vector<double> depths = depths_of(path, chord_mm * frame.metres_per_mm);
        for (std::size_t i = 0; i < depths.size(); ++i) {
            const Point at = on_plan(frame, paths::position_at(path, depths[i]));
            const paths::PathKind here = drawn_kind(path, i == 0 ? depths[0] : (depths[i - 1] + depths[i]) / 2.0);
            if (kind && here != *kind) {
                finish();
                piece = {piece.back()};
            }
            kind = here;
            piece.push_back(at);
        }
        finish();
    }
    return marks;
}

Marks plan_collars(const Results& results, const PaperFrame& frame, DrawnSigns& drawn, const Tools& tools) {
    Marks marks;
    for (const tables::Collar& collar : results.records.collars) {
        if (collar.parent || paths::path_of(results.paths, collar.hole) == nullptr) continue;
        append(marks, start_symbol(collar.type, collar.status, on_plan(frame, collar.position), drawn, tools));
    }
    return marks;
}

Marks plan_hits(const Results& results, const GradeClasses& classes, const PaperFrame& frame, DrawnSigns& drawn,
                const Tools& tools) {
    Marks marks;
    for (const veins::Vein& vein : results.veins)
        for (const veins::NoVein& none : vein.no_vein())
            if (none.is_miss()) append(marks, hit_symbol(HitSign::no_vein, on_plan(frame, none.point), tools));
    for (const forecast::Pierce& pierce : results.pierces) {
        const Point at = on_plan(frame, pierce.point);
        const Sign sign = sign_of(pierce, results);
        const bool at_a_sign =
            std::any_of(results.intercepts.met.begin(), results.intercepts.met.end(),
                        [&](const intercepts::Intercept& hit) { return hides(on_plan(frame, hit.point), at); }) ||
            std::any_of(results.records.collars.begin(), results.records.collars.end(), [&](const tables::Collar& collar) {
                return !collar.parent && hides(on_plan(frame, collar.position), at);
            });
        append(marks, pierce_symbol(sign, at, tools, at_a_sign));
        drawn.signs.insert(sign);
        if (at_a_sign && is_likely(sign)) drawn.signs.insert(Sign::pierce_round_sign);
    }
    for (const intercepts::Intercept& hit : results.intercepts.met)
        append(marks, hit_symbol(sign_of(hit, classes, results.records.frame), on_plan(frame, hit.point), tools));
    return marks;
}

PlanDangers plan_dangers(const Results& results, const PaperFrame& frame, DrawnSigns& drawn, const Tools& tools) {
    PlanDangers dangers;
    for (const paths::Path& path : results.paths) {
        if (path.status != tables::HoleStatus::planned && path.status != tables::HoleStatus::active) continue;
        for (const planning::NearHole& near : near_ahead(path, results).under) {
            const Point at = on_plan(frame, paths::position_at(path, near.depth));
            if (!is_on_plan(frame, at)) continue;
            append(dangers.marks, danger_symbol(at, tools));
            drawn.signs.insert(Sign::too_near);
            constexpr double half = danger_width_mm / 2.0 + 0.3;
            dangers.boxes.push_back({at.x - half, at.y - half, at.x + half, at.y + half});
            drawing::Label label;
            label.owner = path.hole + " near " + near.hole;
            label.at = at;
            label.clear_mm = half;
            label.priority = 5;
            label.lines = {
                {path.hole + ": " + near_hole_words(near, results.records.frame), tools.style.text("body_strong"), {}}};
            label.listed_text = path.hole + "\ttoo near " + near_hole_words(near, results.records.frame);
            dangers.names.push_back(std::move(label));
        }
    }
    return dangers;
}

OpeningSigns plan_openings(const Results& results, const PaperFrame& frame, DrawnSigns& drawn, const Tools& tools) {
    std::vector<OpeningOnSheet> here;
    for (OpeningInSpace& opening : openings_in_space(results))
        if (const Point at = on_plan(frame, opening.point); is_on_plan(frame, at))
            here.push_back({std::move(opening.opened), at});
    return opening_signs(here, results.records.frame, drawn, tools);
}

PlanOutcrops plan_outcrops(const Results& results, const std::vector<drawing::Segment>& lines, const std::vector<Box>& signs,
                           const PaperFrame& frame, DrawnSigns& drawn, const Tools& tools) {
    PlanOutcrops outcrops;
    const drawing::TextLook& look = tools.style.text("body");
    const double cap = drawing::cap_height_mm(tools.fonts, look);
    for (const tables::Outcrop& outcrop : results.records.outcrops) {
        const Point at = on_plan(frame, outcrop.position);
        if (!outcrop.attitude) {
            append(outcrops.marks, outcrop_symbol(at, tools));
            drawn.signs.insert(Sign::outcrop);
            outcrops.boxes.push_back({at.x - 1.2, at.y, at.x + 1.2, at.y + 2.2});
            continue;
        }
        outcrops.any_attitude = true;
        const Eigen::Vector3d strike = base::unit_vector({base::strike_of(*outcrop.attitude), base::Dip::degrees(0)});
        const Eigen::Vector3d down = base::unit_vector({outcrop.attitude->dip_direction, base::Dip::degrees(0)});
        const double half = strike_bar_mm / 2.0;
        const bool vertical = outcrop.attitude->dip.degrees() > 89.5;
        const drawing::LineLook& line = tools.style.line("contact_mark");
        outcrops.marks.push_back(line_of(
            {{at.x - half * strike.x(), at.y - half * strike.y()}, {at.x + half * strike.x(), at.y + half * strike.y()}}, line));
        const double back = vertical ? dip_tick_mm : 0.0;
        outcrops.marks.push_back(line_of(
            {{at.x - back * down.x(), at.y - back * down.y()}, {at.x + dip_tick_mm * down.x(), at.y + dip_tick_mm * down.y()}},
            line));
        const std::string figure = base::fixed(outcrop.attitude->dip.degrees(), 0) + "°";
        const double width = drawing::text_width_mm(tools.fonts, look, figure);
        const auto touched = [&](const Box& box) {
            const Box with_air = drawing::grown(box, 0.4);
            const auto covers = [&](const Box& other) { return drawing::overlap(with_air, other); };
            const auto boxes = std::count_if(outcrops.boxes.begin(), outcrops.boxes.end(), covers) +
                               std::count_if(signs.begin(), signs.end(), covers);
            const auto crossed = std::count_if(lines.begin(), lines.end(),
                                               [&](const drawing::Segment& other) { return drawing::touches(other, with_air); });
            return many_lines * boxes + std::min<std::ptrdiff_t>(crossed, many_lines - 1);
        };
        std::optional<Box> best;
        std::ptrdiff_t least = many_lines;  // on another outcrop the figure is left out
        for (const Eigen::Vector2d& side : figure_sides(down.head<2>(), strike.head<2>())) {
            const double off_x = figure_off_mm + (width - cap) / 2.0;
            const Point centre{at.x + off_x * side.x(), at.y + figure_off_mm * side.y()};
            const Box box{centre.x - width / 2.0, centre.y - cap / 2.0, centre.x + width / 2.0, centre.y + cap / 2.0};
            if (const std::ptrdiff_t count = touched(box); count < least) {
                least = count;
                best = box;
            }
        }
        if (best) {
            outcrops.marks.push_back(words({(best->left + best->right) / 2.0, best->bottom}, figure, look,
                                           drawing::Anchor::centre, tools.style.size_mm("halo")));
            // A name close before or after it would read on.
            outcrops.boxes.push_back({best->left - 1.0, best->bottom, best->right + 1.0, best->top});
        }
        outcrops.boxes.push_back(drawing::grown({at.x - std::abs(half * strike.x()), at.y - std::abs(half * strike.y()),
                                                 at.x + std::abs(half * strike.x()), at.y + std::abs(half * strike.y())},
                                                0.3));
    }
    return outcrops;
}

PlanSections plan_sections(const SectionSet& sections, const std::vector<Eigen::Vector3d>& data, const std::vector<Box>& taken,
                           const PaperFrame& frame, const Box& within, DrawnSigns& drawn, const Tools& tools) {
    PlanSections made;
    if (data.empty() || sections.sections.empty()) return made;
    double least = 1e300, most = -1e300;
    for (const Eigen::Vector3d& point : data) {
        least = std::min(least, sections.base.distance(point));
        most = std::max(most, sections.base.distance(point));
    }
    least -= section_overhang_mm * frame.metres_per_mm;
    most += section_overhang_mm * frame.metres_per_mm;
    drawn.signs.insert(Sign::section_line);
    for (const Section& section : sections.sections) {
        // Ends even along the whole set: measured from the base section's own origin.
        const double shift = sections.base.right.dot(section.frame.origin - sections.base.origin);
        const Point from = on_plan(frame, section.frame.at(least - shift, 0.0)),
                    to = on_plan(frame, section.frame.at(most - shift, 0.0));
        const auto seen = drawing::clipped({from, to}, drawing::grown(within, -6.0));
        if (!seen || std::hypot(seen->b.x - seen->a.x, seen->b.y - seen->a.y) < 1.0) continue;
        const Point a = named_end(made, *seen, section.name, taken, tools);
        const Point b = named_end(made, {seen->b, seen->a}, section.name, taken, tools);
        made.lines.push_back(line_of({a, b}, tools.style.line("section_line")));
    }
    return made;
}

}  // namespace selvage::sheets
