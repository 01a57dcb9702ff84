#include "sheets/long_section_marks.h"

#include "drawing/clipping.h"
#include "drawing/polyline.h"
#include "sheets/label_text.h"
#include "sheets/long_section_page.h"
#include "sheets/pierce_sign.h"
#include "sheets/stated_faults.h"
#include "sheets/symbols.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <string>
#include <utility>

namespace selvage::sheets {

namespace {

Box square_at(const Point& at, double width) {
    return {at.x - width / 2.0, at.y - width / 2.0, at.x + width / 2.0, at.y + width / 2.0};
}

// Names of sections under the window, as many as stand clear of each other.
Marks foot_names(const std::vector<std::pair<double, std::string>>& names, const Box& window, const Tools& tools) {
    constexpr double gap = 2.0, drop = 3.4;
    const drawing::TextLook& look = tools.style.text("section_name");
    Marks marks;
    double free_from = window.left - 10.0;
    for (const auto& [x, name] : names) {
        const double half = drawing::text_width_mm(tools.fonts, look, name) / 2.0;
        if (x - half < free_from) continue;
        drawing::Text text{{x, window.bottom - drop},
                           name,
                           look,
                           drawing::Anchor::centre,
                           false,
                           0.0,
                           destination_of_sheet("cross-section", name)};
        marks.emplace_back(std::move(text));
        free_from = x + half + gap;
    }
    return marks;
}

}  // namespace

std::vector<std::vector<Point>> apart_from(const std::vector<Point>& line, const std::vector<std::vector<Point>>& others,
                                           double apart_mm) {
    constexpr double step_mm = 0.5;
    const auto is_clear = [&](const Point& at) {
        for (const std::vector<Point>& other : others)
            for (std::size_t i = 1; i < other.size(); ++i)
                if (drawing::distance(at, drawing::Segment{other[i - 1], other[i]}) < apart_mm) return false;
        return true;
    };
    if (others.empty()) return {line};
    const double length = drawing::length_of(line);
    const int steps = std::max(1, static_cast<int>(std::ceil(length / step_mm)));
    std::vector<std::vector<Point>> stretches;
    std::optional<double> from;
    for (int i = 0; i <= steps; ++i) {
        const double along = length * i / steps;
        const bool clear = is_clear(drawing::point_along(line, along).at);
        if (clear && !from) from = along;
        if (!from || (clear && i < steps)) continue;
        const double to = clear ? along : along - length / steps;
        if (to > *from) stretches.push_back(drawing::part_along(line, *from, to));
        from.reset();
    }
    return stretches;
}

Marks edge_marks(const LongSectionContent& content, const veins::Vein& vein, const LongSectionFrame& frame,
                 std::set<Sign>& fault_signs, const Tools& tools) {
    Marks marks;
    std::vector<std::pair<WallStyle, std::vector<Point>>> fault_ends;
    for (std::size_t number = 0; number < content.blocks.size(); ++number)
        for (const veins::EdgeLine& edge : content.blocks[number].edges) {
            if (edge.reason == veins::EdgeReason::topography && frame.ground) continue;  // the ground's own line stands there
            if (edge.reason == veins::EdgeReason::property) continue;                    // the property's own line does
            std::vector<Eigen::Vector2d> places;
            for (const Eigen::Vector3d& point : edge.points)
                places.push_back(content.blocks[number].layout.layout_from_world(point));
            if (edge.reason == veins::EdgeReason::fault && !edge.points.empty())
                fault_ends.emplace_back(style_of_end(vein.blocks(), number, edge.points[edge.points.size() / 2],
                                                     content.layout.normal, frame.paper.metres_per_mm),
                                        on_paper(places, frame.paper));
            else
                marks.push_back(line_of(on_paper(places, frame.paper), edge_look(edge.reason, content.vein, tools)));
        }
    // Two sides too near each other to be told apart are one line: that of the side whose place is known the less well.
    std::stable_sort(fault_ends.begin(), fault_ends.end(), [](const auto& a, const auto& b) { return a.first > b.first; });
    std::vector<std::vector<Point>> drawn;
    for (const auto& [style, line] : fault_ends) {
        for (std::vector<Point>& stretch : apart_from(line, drawn, fault_sides_apart_mm)) {
            fault_signs.insert(fault_sign(style));
            marks.push_back(line_of(std::move(stretch), tools.style.line(fault_role(style))));
        }
        drawn.push_back(line);
    }
    return marks;
}

Marks section_line_marks(const LongSectionContent& content, const SectionSet& sections, const PaperFrame& frame,
                         const Tools& tools) {
    Marks marks;
    const Box& window = frame.window;
    const Eigen::Vector2d low = frame.drawn_from_paper({window.left, window.bottom});
    const Eigen::Vector2d high = frame.drawn_from_paper({window.right, window.top});
    std::vector<std::pair<double, std::string>> names;  // mm along the foot
    for (const Section& section : sections.sections) {
        // On the plane the section is the line a x + b y + c = 0.
        const double a = section.frame.away.dot(content.layout.along), b = section.frame.away.dot(content.layout.up_dip);
        const double c = section.frame.away.dot(content.layout.origin - section.frame.origin);
        if (std::abs(a) < 0.1) continue;
        const Point foot = frame.paper_from_drawn({-(b * low.y() + c) / a, low.y()});
        const Point top = frame.paper_from_drawn({-(b * high.y() + c) / a, high.y()});
        const std::optional<drawing::Segment> seen = drawing::clipped({foot, top}, window);
        if (!seen) continue;
        marks.push_back(line_of({seen->a, seen->b}, tools.style.line("grid")));
        if (foot.x >= window.left && foot.x <= window.right) names.emplace_back(foot.x, section.name);
    }
    std::sort(names.begin(), names.end());
    append(marks, foot_names(names, window, tools));
    return marks;
}

Marks symbol_marks(const LongSectionContent& content, const PaperFrame& frame, const Tools& tools) {
    Marks marks;
    for (const OutcropOnPlane& outcrop : content.outcrops)
        append(marks, outcrop_symbol(frame.paper_from_drawn(outcrop.place), tools));
    for (const MissOnPlane& miss : content.misses)
        append(marks, hit_symbol(HitSign::no_vein, frame.paper_from_drawn(miss.place), tools));
    for (const HitOnPlane& hit : content.hits) append(marks, hit_symbol(hit.sign, frame.paper_from_drawn(hit.place), tools));
    return marks;
}

Marks little_core_marks(const std::vector<HitOnPlane>& hits, const PaperFrame& frame, const Tools& tools) {
    Marks marks;
    for (const HitOnPlane& hit : hits)
        if (has_little_core(*hit.hit)) append(marks, little_core_mark(hit.sign, frame.paper_from_drawn(hit.place), tools));
    return marks;
}

std::vector<Box> little_core_boxes(const std::vector<HitOnPlane>& hits, const PaperFrame& frame, const Tools& tools) {
    std::vector<Box> boxes;
    for (const HitOnPlane& hit : hits)
        if (has_little_core(*hit.hit)) boxes.push_back(little_core_box(hit.sign, frame.paper_from_drawn(hit.place), tools));
    return boxes;
}

bool goes_round_a_hit(const PierceOnPlane& pierce, const LongSectionContent& content, const PaperFrame& frame) {
    const Point at = frame.paper_from_drawn(pierce.place);
    return is_likely(pierce.sign) && std::any_of(content.hits.begin(), content.hits.end(), [&](const HitOnPlane& hit) {
               return hides(frame.paper_from_drawn(hit.place), at);
           });
}

Marks forecast_marks(const LongSectionContent& content, const PaperFrame& frame, const Tools& tools) {
    Marks marks;
    for (const PierceOnPlane& pierce : content.pierces) {
        drawing::Shape ellipse;
        ellipse.rings = {on_paper(pierce.ellipse, frame)};
        ellipse.closed = true;
        ellipse.line = tools.style.line(is_likely(pierce.sign) ? "planned_edge" : "planned_beyond");
        marks.emplace_back(std::move(ellipse));
        const Point at = frame.paper_from_drawn(pierce.place);
        append(marks, pierce_symbol(pierce.sign, at, tools, goes_round_a_hit(pierce, content, frame)));
    }
    for (const TargetOnPlane& target : content.targets) {
        const double radius = target.off.target->radius.value_or(0.0) / frame.metres_per_mm;
        append(marks, target_marks(frame.paper_from_drawn(target.place), radius, tools));
    }
    for (const StepOutOnPlane& step_out : content.step_outs)
        append(marks, step_out_symbol(frame.paper_from_drawn(step_out.place), step_out.step_out->rank, tools));
    return marks;
}

std::vector<Box> symbol_boxes(const LongSectionContent& content, const PaperFrame& frame, const Tools& tools) {
    std::vector<Box> boxes;
    for (const HitOnPlane& hit : content.hits)
        boxes.push_back(square_at(frame.paper_from_drawn(hit.place), hit_symbol_width_mm(hit.sign, tools)));
    for (const MissOnPlane& miss : content.misses)
        boxes.push_back(square_at(frame.paper_from_drawn(miss.place), hit_symbol_width_mm(HitSign::no_vein, tools)));
    for (const PierceOnPlane& pierce : content.pierces)
        boxes.push_back(square_at(frame.paper_from_drawn(pierce.place),
                                  tools.style.size_mm("planned_pierce") + 2.0 * tools.style.size_mm("planned_pierce_tick")));
    for (const TargetOnPlane& target : content.targets)
        boxes.push_back(square_at(frame.paper_from_drawn(target.place), target_cross_mm));
    for (const StepOutOnPlane& step_out : content.step_outs)
        boxes.push_back(square_at(frame.paper_from_drawn(step_out.place), tools.style.size_mm("hexagon")));
    for (const OutcropOnPlane& outcrop : content.outcrops) {
        const double width = tools.style.size_mm("outcrop");
        const Point at = frame.paper_from_drawn(outcrop.place);
        boxes.push_back({at.x - width / 2.0, at.y, at.x + width / 2.0, at.y + width});
    }
    return boxes;
}

}  // namespace selvage::sheets
