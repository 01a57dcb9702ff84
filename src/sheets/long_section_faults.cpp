#include "sheets/long_section_faults.h"

#include "drawing/clipping.h"
#include "drawing/polyline.h"
#include "sheets/label_text.h"
#include "sheets/legend_signs.h"
#include "sheets/long_section_frame.h"
#include "sheets/long_section_marks.h"
#include "sheets/stated_faults.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>
#include <utility>

namespace selvage::sheets {

namespace {

constexpr double stroke_every_mm = 1.4, overlap_turn = 0.7853981633974483;
constexpr double sample_mm = 2.0;         // along a fault, of what lies between its sides
constexpr double block_name_in_mm = 9.0;  // of a block's name from the fault at which it ends

using Places = std::vector<Eigen::Vector2d>;

// A block's ends at one fault, along the fault's trace on the plane (t) and across it to the hanging-wall side (s), m.
struct Side {
    std::vector<Places> ends;  // (t, s), each with t rising, in rising order
    double from() const { return ends.front().front().x(); }
    double to() const { return ends.back().back().x(); }
    double across_at(double t) const {
        const Eigen::Vector2d* before = &ends.front().front();
        for (const Places& end : ends)
            for (const Eigen::Vector2d& place : end) {
                if (place.x() >= t) {
                    const double run = place.x() - before->x();
                    return run > 0.0 ? before->y() + (place.y() - before->y()) * (t - before->x()) / run : place.y();
                }
                before = &place;
            }
        return before->y();
    }
};

// A fault's own axes on the drawn plane.
struct FaultAxes {
    Eigen::Vector2d along = Eigen::Vector2d::UnitY(), across = Eigen::Vector2d::UnitX();  // unit
    Eigen::Vector2d in(const Eigen::Vector2d& place) const { return {along.dot(place), across.dot(place)}; }
    Eigen::Vector2d out(double t, double s) const { return t * along + s * across; }
};

std::optional<FaultAxes> axes_of(const faults::Fault& fault, const PlaneLayout& layout) {
    const Eigen::Vector2d across(fault.plane.normal.dot(layout.along), fault.plane.normal.dot(layout.up_dip));
    if (across.norm() < 0.05) return std::nullopt;  // it runs along the vein
    FaultAxes axes;
    axes.across = across.normalized();
    axes.along = {-axes.across.y(), axes.across.x()};
    return axes;
}

// The fault at which an edge of a block ends.
std::size_t fault_of(const veins::EdgeLine& edge, const faults::Blocks& blocks, std::size_t block) {
    return blocks.inside(block, edge.points[edge.points.size() / 2]).fault;
}

Places laid(const veins::EdgeLine& edge, const PlaneLayout& layout) {
    Places places;
    for (const Eigen::Vector3d& point : edge.points) places.push_back(layout.layout_from_world(point));
    return places;
}

std::optional<Side> side_of(const BlockOnPlane& block, const std::vector<const veins::EdgeLine*>& edges, const FaultAxes& axes) {
    Side side;
    for (const veins::EdgeLine* edge : edges) {
        Places end;
        for (const Eigen::Vector2d& place : laid(*edge, block.layout)) end.push_back(axes.in(place));
        if (end.front().x() > end.back().x()) std::reverse(end.begin(), end.end());
        side.ends.push_back(std::move(end));
    }
    if (side.ends.empty()) return std::nullopt;
    std::sort(side.ends.begin(), side.ends.end(), [](const Places& a, const Places& b) { return a.front().x() < b.front().x(); });
    return side;
}

// What lies between the two sides, as far as both are known, parted where a gap becomes an overlap.
void add_spans(FaultsOnPlane& drawn, const std::string& fault, const Side& foot, const Side& hanging, const FaultAxes& axes,
               const PaperFrame& frame) {
    const double from = std::max(foot.from(), hanging.from()), to = std::min(foot.to(), hanging.to());
    const int steps = static_cast<int>((to - from) / (sample_mm * frame.metres_per_mm));
    if (steps < 2) return;
    std::vector<Point> low, high;
    double sum = 0.0;
    bool gap = true;
    const auto finish = [&] {
        if (low.size() > 1 && sum / static_cast<double>(low.size()) >= fault_sides_apart_mm * frame.metres_per_mm) {
            FaultSpan span{fault, gap, sum / static_cast<double>(low.size()), low};
            span.border.insert(span.border.end(), high.rbegin(), high.rend());
            drawn.spans.push_back(std::move(span));
        }
        low.clear();
        high.clear();
        sum = 0.0;
    };
    for (int i = 0; i <= steps; ++i) {
        const double t = from + (to - from) * i / steps, s_foot = foot.across_at(t), s_hanging = hanging.across_at(t);
        if (low.empty() || gap != (s_hanging >= s_foot)) {
            finish();
            gap = s_hanging >= s_foot;
        }
        low.push_back(frame.paper_from_drawn(axes.out(t, s_foot)));
        high.push_back(frame.paper_from_drawn(axes.out(t, s_hanging)));
        sum += std::abs(s_hanging - s_foot);
    }
    finish();
}

// Two blocks that one fault alone parts.
bool only_parted_by(const faults::Blocks& blocks, std::size_t a, std::size_t b, std::size_t fault) {
    for (std::size_t f = 0; f < blocks.faults().size(); ++f)
        if ((blocks.on_hanging_side(a, f) != blocks.on_hanging_side(b, f)) != (f == fault)) return false;
    return true;
}

}  // namespace

FaultsOnPlane faults_on_plane(const LongSectionContent& content, const veins::Vein& vein, const PaperFrame& frame) {
    const faults::Blocks& blocks = vein.blocks();
    FaultsOnPlane drawn;
    for (std::size_t f = 0; f < blocks.faults().size(); ++f) {
        const std::optional<FaultAxes> axes = axes_of(blocks.faults()[f], content.layout);
        std::vector<std::vector<Point>> ends;
        std::map<std::size_t, Side> sides;  // by block
        for (std::size_t number = 0; number < content.blocks.size(); ++number) {
            const BlockOnPlane& block = content.blocks[number];
            std::vector<const veins::EdgeLine*> edges;
            for (const veins::EdgeLine& edge : block.edges)
                if (edge.reason == veins::EdgeReason::fault && edge.points.size() > 1 && fault_of(edge, blocks, number) == f)
                    edges.push_back(&edge);
            for (const veins::EdgeLine* edge : edges) ends.push_back(on_paper(laid(*edge, block.layout), frame));
            std::optional<Side> side = axes ? side_of(block, edges, *axes) : std::nullopt;
            if (!side) continue;
            for (std::size_t i = 1; i < side->ends.size(); ++i) {
                const Eigen::Vector2d a = side->ends[i - 1].back(), b = side->ends[i].front();
                if (b.x() > a.x())
                    drawn.between.push_back(
                        {frame.paper_from_drawn(axes->out(a.x(), a.y())), frame.paper_from_drawn(axes->out(b.x(), b.y()))});
            }
            sides.emplace(number, std::move(*side));
        }
        if (ends.empty()) continue;
        drawn.names.push_back(blocks.faults()[f].name);
        drawn.ends.push_back(std::move(ends));
        for (const auto& [a, foot] : sides)
            for (const auto& [b, hanging] : sides)
                if (!blocks.on_hanging_side(a, f) && blocks.on_hanging_side(b, f) && only_parted_by(blocks, a, b, f))
                    add_spans(drawn, blocks.faults()[f].name, foot, hanging, *axes, frame);
    }
    return drawn;
}

namespace {

drawing::LineLook stroke_look(bool gap, std::size_t vein, const Tools& tools) {
    return gap ? tools.style.line("fault_gap") : with_colour(tools.style.line("fault_overlap"), vein_colour(vein, tools));
}

Marks strokes(const std::vector<Point>& border, bool gap, std::size_t vein, const Tools& tools) {
    Marks marks;
    for (const drawing::Segment& stroke : drawing::hatch({border}, gap ? 0.0 : overlap_turn, stroke_every_mm))
        marks.push_back(line_of({stroke.a, stroke.b}, stroke_look(gap, vein, tools)));
    return marks;
}

}  // namespace

Marks span_marks(const FaultsOnPlane& faults, std::size_t vein, const Tools& tools) {
    Marks marks;
    for (const FaultSpan& span : faults.spans) append(marks, strokes(span.border, span.gap, vein, tools));
    return marks;
}

Marks between_marks(const FaultsOnPlane& faults, const Tools& tools) {
    Marks marks;
    for (const std::vector<Point>& line : faults.between) marks.push_back(line_of(line, tools.style.line("fault_unmodelled")));
    return marks;
}

std::vector<NamedLabel> fault_labels(const LongSectionContent& content, const FaultsOnPlane& faults, const PaperFrame& frame,
                                     const Tools& tools) {
    std::vector<NamedLabel> labels;
    const auto longest = [](const std::vector<std::vector<Point>>& lines) {
        return *std::max_element(lines.begin(), lines.end(),
                                 [](const auto& a, const auto& b) { return drawing::length_of(a) < drawing::length_of(b); });
    };
    for (std::size_t f = 0; f < faults.names.size(); ++f)
        labels.push_back({line_label(faults.names[f], longest(faults.ends[f]), tools), {}, false});
    if (!is_parted(content)) return labels;
    for (const BlockOnPlane& block : content.blocks) {
        if (block.edges.empty()) continue;
        Eigen::Vector2d middle = Eigen::Vector2d::Zero();
        double count = 0.0;
        std::vector<std::vector<Point>> ends;
        for (const veins::EdgeLine& edge : block.edges) {
            for (const Eigen::Vector2d& place : laid(edge, block.layout)) {
                middle += place;
                ++count;
            }
            if (edge.reason == veins::EdgeReason::fault && edge.points.size() > 1)
                ends.push_back(on_paper(laid(edge, block.layout), frame));
        }
        const Point centre = frame.paper_from_drawn(middle / count);
        drawing::Label label;
        label.owner = block.words;
        label.at = centre;
        for (const std::vector<Point>& end : ends)
            for (const double share : {0.5, 0.2, 0.8}) {
                const Point at = drawing::point_along(end, share * drawing::length_of(end)).at;
                const double away = std::max(1e-6, drawing::length_of(centre.x - at.x, centre.y - at.y));
                const double in = std::min(away, block_name_in_mm) / away;
                label.also_at.push_back({at.x + in * (centre.x - at.x), at.y + in * (centre.y - at.y)});
            }
        label.clear_mm = 0.0;
        label.lines = {{block.words, tools.style.text("line_name")}};
        label.priority = 1;
        label.may_lead = label.may_be_listed = false;
        labels.push_back({std::move(label), {}, false});
    }
    return labels;
}

std::string movement_words(const Eigen::Vector3d& slip, const base::MapFrame& map) {
    const double unit = base::metres_per(map.unit), level = slip.head<2>().norm();
    std::string words;
    if (std::abs(slip.z()) >= unit / 2.0) words = length_text(std::abs(slip.z()), map, 0) + (slip.z() < 0.0 ? " down" : " up");
    if (level >= unit / 2.0)
        words += (words.empty() ? "" : ", ") + length_text(level, map, 0) + " " +
                 compass_point(base::direction_of({slip.x(), slip.y(), 0.0}).azimuth);
    return words.empty() ? "not at all" : words;
}

// As drawn and, where the data of both sides make that half a unit or more of what is given, as given.
std::string slip_words(const faults::Fault& fault, const veins::Vein& vein, const base::MapFrame& map) {
    if (!fault.slip_given) return "cut, not moved, as its slip is not given";
    for (const veins::SlipEstimate& slip : vein.slips())
        if (slip.fault == fault.name && (slip.used - fault.slip).norm() >= base::metres_per(map.unit) / 2.0)
            return "drawn moved " + movement_words(slip.used, map) + "; given: " + movement_words(fault.slip, map);
    return "moved " + movement_words(fault.slip, map);
}

LegendGroup block_group(const LongSectionContent& content, const FaultsOnPlane& faults, const Results& results,
                        const Tools& tools) {
    const veins::Vein& vein = results.veins[content.vein];
    const base::MapFrame& map = results.records.frame;
    LegendGroup group{"Blocks", {}};
    const auto nothing = [](const Box&) { return Marks{}; };
    const auto is_drawn = [&](const std::string& name) {
        return std::find(faults.names.begin(), faults.names.end(), name) != faults.names.end();
    };
    for (const faults::Fault& fault : vein.blocks().faults())
        if (is_drawn(fault.name))
            group.entries.push_back(
                {"hanging wall of " + fault.name + ", in tables \"" + fault.name + "+\": " + slip_words(fault, vein, map),
                 nothing});
    for (const bool gap : {true, false}) {
        std::string where;  // each span's fault and width
        for (const FaultSpan& span : faults.spans)
            if (span.gap == gap)
                where += (where.empty() ? "" : ", ") + span.fault + " (about " + length_text(span.width, map, 0) + " here)";
        if (where.empty()) continue;
        group.entries.push_back(
            {gap ? "gap of " + where + ": no vein" : "both sides of " + where + ": the vein is there twice",
             [gap, vein = content.vein, &tools](const Box& box) {
                 // As on the sheet: between the fault's two lines.
                 const Box span{box.left + 0.3 * box.width(), box.bottom, box.right - 0.3 * box.width(), box.top};
                 Marks marks =
                     strokes({{span.left, span.bottom}, {span.right, span.bottom}, {span.right, span.top}, {span.left, span.top}},
                             gap, vein, tools);
                 for (const double x : {span.left, span.right})
                     marks.push_back(line_of({{x, span.bottom}, {x, span.top}}, tools.style.line("fault")));
                 return marks;
             }});
    }
    if (!reads_elevations_level(content.layout) && is_parted(content))
        for (const BlockOnPlane& block : content.blocks)
            if (!block.edges.empty())
                group.entries.push_back({"the " + block.words + " lies " + length_text(std::abs(block.off_plane), map, 0) +
                                             (block.off_plane < 0.0 ? " below" : " above") +
                                             " this plane: its elevations are not those of the axis",
                                         nothing});
    return group;
}

}  // namespace selvage::sheets
