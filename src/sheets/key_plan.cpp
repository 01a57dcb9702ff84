#include "sheets/key_plan.h"

#include "base/text.h"
#include "drawing/clipping.h"
#include "drawing/labels.h"
#include "drawing/polyline.h"
#include "drawing/symbols.h"
#include "sheets/label_text.h"
#include "sheets/legend_signs.h"
#include "sheets/page.h"
#include "sheets/symbols.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace selvage::sheets {

namespace {

constexpr double inset = 3.0;         // mm of free paper round what is shown
constexpr double line_inset = 4.5;    // mm from the box's edge to a cut-off section line: room for its letters
constexpr double share_shown = 0.85;  // of the holes' points: what lies further out is cut by the box's edge
constexpr double line_within = 0.7;   // of the box's half width and height: there at least the sheet's line comes
constexpr double trace_step = 25.0;   // m along a hole between points of its trace
constexpr double least_denominator = 1000.0;

using Place = Eigen::Vector2d;

struct Extent {
    Place low{1e18, 1e18}, high{-1e18, -1e18};
    void take(const Place& place) {
        low = low.cwiseMin(place);
        high = high.cwiseMax(place);
    }
    bool empty() const { return low.x() > high.x(); }
};

// All holes; veins and section lines run on to the box's edge.
Extent extent_of(const KeyMap& map, const std::optional<KeyLine>& line) {
    Extent extent;
    for (const KeyMap::Hole& hole : map.holes)
        for (const Place& place : hole.trace) extent.take(place);
    if (extent.empty() && line) {
        extent.take(line->left.head<2>());
        extent.take(line->right.head<2>());
    }
    if (extent.empty()) extent.take(Place::Zero());
    return extent;
}

// How much of the ground a key plan shows.
struct Shown {
    double denominator = 1000.0;
    Place middle = Place::Zero();
};

// The middle moved as little as need be, so that the nearest point of the sheet's own line stands well within the box.
Place with_line(const Place& middle, const KeyLine& line, const Place& half) {
    const Place start = line.left.head<2>(), along = line.right.head<2>() - start;
    const double share = std::clamp((middle - start).dot(along) / std::max(along.squaredNorm(), 1e-9), 0.0, 1.0);
    const Place nearest = start + share * along, room = half * line_within;
    return middle.cwiseMax(nearest - room).cwiseMin(nearest + room);
}

// Share of the holes' points that a box of that half width and height holds.
double share_within(const KeyMap& map, const Place& middle, const Place& half) {
    std::size_t all = 0, within = 0;
    for (const KeyMap::Hole& hole : map.holes)
        for (const Place& place : hole.trace) {
            ++all;
            within += ((place - middle).cwiseAbs() - half).maxCoeff() <= 0.0 ? 1 : 0;
        }
    return all == 0 ? 1.0 : static_cast<double>(within) / static_cast<double>(all);
}

// The largest scale of the ladder that shows nearly all of the holes, and the sheet's line among them.
Shown shown_of(const KeyMap& map, const std::optional<KeyLine>& line, double width_mm, double height_mm, bool feet) {
    const Extent extent = extent_of(map, line);
    const Place size = extent.high - extent.low;
    Shown shown;
    for (const double step : scale_ladder(feet)) {
        if (step < least_denominator) continue;
        const Place half = Place(width_mm / 2.0 - inset, height_mm / 2.0 - inset) * step / 1000.0;
        shown = {step, (extent.low + extent.high) / 2.0};
        if (line) shown.middle = with_line(shown.middle, *line, half);
        if (map.holes.empty() ? (size / 2.0 - half).maxCoeff() <= 0.0 : share_within(map, shown.middle, half) >= share_shown)
            break;
    }
    return shown;
}

// Where plan places stand in the key plan's box.
struct Projection {
    Place middle;
    double metres_per_mm = 1.0;
    Box box;
    Point paper(const Place& place) const {
        return {(box.left + box.right) / 2.0 + (place.x() - middle.x()) / metres_per_mm,
                (box.bottom + box.top) / 2.0 + (place.y() - middle.y()) / metres_per_mm};
    }
    std::vector<Point> paper(const std::vector<Place>& places) const {
        std::vector<Point> points;
        for (const Place& place : places) points.push_back(paper(place));
        return points;
    }
};

void add_obstacles(drawing::Obstacles& obstacles, const std::vector<Point>& line) {
    for (std::size_t i = 0; i + 1 < line.size(); ++i) obstacles.lines.push_back({line[i], line[i + 1]});
}

drawing::Label plain_label(const std::string& text, const Point& at, const drawing::TextLook& look, int priority,
                           double clear_mm) {
    drawing::Label label;
    label.owner = text;
    label.at = at;
    label.clear_mm = clear_mm;
    label.lines = {{text, look}};
    label.priority = priority;
    label.may_lead = false;
    label.may_be_listed = true;
    return label;
}

Marks scale_marks(const Box& box, double metres_per_mm, const base::MapFrame& frame, const Tools& tools, Box& taken) {
    const double most = 22.0 * frame.length(metres_per_mm);
    const double power = std::pow(10.0, std::floor(std::log10(most)));
    const double length = most >= 5.0 * power ? 5.0 * power : most >= 2.0 * power ? 2.0 * power : power;
    const double mm = length / frame.length(metres_per_mm);
    const Point right{box.right - 3.0, box.bottom + 2.4}, left{right.x - mm, right.y};
    const drawing::LineLook& look = tools.style.line("scale_bar");
    taken = {left.x - 1.5, box.bottom, box.right, box.bottom + 6.2};
    return {box_area(taken, plain(tools.style.colour("white"))),
            line_of({{left.x, left.y + 1.0}, left, right, {right.x, right.y + 1.0}}, look),
            words({(left.x + right.x) / 2.0, left.y + 0.9}, base::significant(length, 4) + " " + base::symbol_of(frame.unit),
                  tools.style.text("scale_figure"), drawing::Anchor::centre)};
}

// The section's ends, drawn in to the box where they lie outside what is shown.
std::pair<Point, Point> ends_of(const KeyLine& line, const Projection& at) {
    const drawing::Segment whole{at.paper(Place(line.left.head<2>())), at.paper(Place(line.right.head<2>()))};
    const drawing::Segment seen = drawing::clipped(whole, drawing::grown(at.box, -line_inset)).value_or(whole);
    return {seen.a, seen.b};
}

void add_line(Marks& marks, drawing::Obstacles& obstacles, const KeyLine& line, const Projection& at, const Tools& tools) {
    const auto [left, right] = ends_of(line, at);
    const Point middle{(left.x + right.x) / 2.0, (left.y + right.y) / 2.0};
    constexpr double arrow = 6.0;
    const Point tip{middle.x + arrow * line.looking.x(), middle.y + arrow * line.looking.y()};
    const drawing::LineLook& look = tools.style.line("section_line_strong");
    drawing::LineLook shaft = look;
    shaft.width_mm = tools.style.line("panel").width_mm;
    marks.push_back(line_of({left, right}, look));
    marks.push_back(line_of({middle, {tip.x - line.looking.x(), tip.y - line.looking.y()}}, shaft));
    marks.push_back(
        drawing::arrow_head(tip, line.looking.x(), line.looking.y(), tools.style.size_mm("arrow"), tools.style.colour("ink")));
    obstacles.lines.push_back({left, right});
    obstacles.lines.push_back({middle, tip});
}

// Words by the placer; those that find no room are left out: the drawing itself carries them too.
void add_words(Marks& marks, const std::vector<drawing::Label>& labels, const drawing::Obstacles& obstacles, const Box& box,
               const Tools& tools) {
    drawing::LabelRules rules;
    rules.window = drawing::grown(box, -0.8);
    rules.near_mm = 0.5;
    rules.far_mm = 2.0;
    const drawing::PlacedLabels placed = drawing::place_labels(labels, obstacles, rules, tools.fonts);
    for (const drawing::PlacedLabel& label : placed.labels)
        if (label.placing == drawing::Placing::beside)
            for (const drawing::Text& text :
                 drawing::texts_of(labels[label.label], label, rules, tools.fonts, tools.style.size_mm("halo")))
                marks.push_back(text);
}

// A vein's name stands anywhere along its longest line, at an end sooner than in the middle.
std::vector<drawing::Label> vein_names(const KeyMap& map, const Projection& at, const Tools& tools) {
    std::vector<drawing::Label> labels;
    for (const KeyMap::VeinLine& vein : map.veins) {
        const drawing::TextLook look = with_colour(tools.style.text("line_name"), vein_colour(vein.vein, tools));
        std::vector<std::vector<Point>> seen;
        for (const std::vector<Place>& part : vein.parts)
            for (std::vector<Point>& piece : drawing::clipped_line(at.paper(part), drawing::grown(at.box, -line_inset)))
                seen.push_back(std::move(piece));
        const auto longest = std::max_element(
            seen.begin(), seen.end(), [](const auto& a, const auto& b) { return drawing::length_of(a) < drawing::length_of(b); });
        if (longest == seen.end()) continue;
        const auto point = [&](double share) { return drawing::point_along(*longest, share * drawing::length_of(*longest)).at; };
        drawing::Label label = plain_label(vein.name, point(0.06), look, 3, 0.4);
        for (const double share : {0.94, 0.16, 0.84, 0.28, 0.72, 0.4, 0.6}) label.also_at.push_back(point(share));
        labels.push_back(std::move(label));
    }
    return labels;
}

Marks draw_key_plan(const KeyMap& map, const base::MapFrame& frame, const std::optional<KeyLine>& line, const Projection& at,
                    const Tools& tools) {
    Marks marks;
    drawing::Obstacles obstacles;
    for (const KeyMap::Hole& hole : map.holes) {
        const bool planned = !tables::is_drilled(hole.status) && hole.status != tables::HoleStatus::active;
        drawing::LineLook look = tools.style.line("key_trace");
        if (planned) look = with_colour(look, tools.style.colour("planned"));
        for (const std::vector<Point>& trace : drawing::clipped_line(at.paper(hole.trace), at.box)) {
            marks.push_back(line_of(trace, look));
            for (std::size_t i = 0; i + 1 < trace.size(); ++i) obstacles.soft_lines.push_back({trace[i], trace[i + 1]});
        }
    }
    for (const KeyMap::VeinLine& vein : map.veins)
        for (const std::vector<Place>& part : vein.parts)
            for (const std::vector<Point>& points : drawing::clipped_line(at.paper(part), at.box)) {
                marks.push_back(line_of(points, with_colour(tools.style.line("single_vein"), vein_colour(vein.vein, tools))));
                add_obstacles(obstacles, points);
            }
    for (const KeyMap::Hole& hole : map.holes) {
        if (hole.trace.empty()) continue;
        const Point collar = at.paper(hole.trace.front());
        const double radius = tools.style.size_mm("collar") * 0.3;
        if (!drawing::overlap(at.box, {collar.x - radius, collar.y - radius, collar.x + radius, collar.y + radius})) continue;
        const CollarState state = collar_state(hole.status);
        if (state == CollarState::planned)
            marks.push_back(ring(collar, radius, with_colour(tools.style.line("rule"), tools.style.colour("planned")),
                                 plain({255, 255, 255})));
        else
            marks.push_back(disc(collar, radius, plain(tools.style.colour("ink"))));
    }
    Box scale_box;
    Marks scale = scale_marks(at.box, at.metres_per_mm, frame, tools, scale_box);
    const Box north_box{at.box.left + 0.5, at.box.top - 12.5, at.box.left + 6.5, at.box.top - 0.5};
    obstacles.boxes = {scale_box, north_box};
    if (line) add_line(marks, obstacles, *line, at, tools);
    append(marks, std::move(scale));
    marks.push_back(box_area(north_box, plain(tools.style.colour("white"))));
    append(marks, north_arrow({at.box.left + 3.5, at.box.top - 11.5}, 7.0, tools));
    std::vector<drawing::Label> labels;
    if (line) {
        const drawing::TextLook& look = tools.style.text("key_plan_name");
        const auto [left, right] = ends_of(*line, at);
        labels.push_back(plain_label(line->left_letters, left, look, 5, 0.5));
        labels.push_back(plain_label(line->right_letters, right, look, 5, 0.5));
    }
    for (drawing::Label& label : vein_names(map, at, tools)) labels.push_back(std::move(label));
    add_words(marks, labels, obstacles, at.box, tools);
    return marks;
}

std::vector<std::vector<Place>> parts_of(const std::vector<veins::TracePoint>& trace, double step) {
    std::vector<std::vector<Place>> parts;
    const veins::TracePoint* before = nullptr;
    for (const veins::TracePoint& point : trace) {
        if (!point.within_extent) {
            before = nullptr;
            continue;
        }
        if (!before || (point.mid - before->mid).norm() > 2.5 * step) parts.emplace_back();
        parts.back().push_back(point.mid.head<2>());
        before = &point;
    }
    parts.erase(std::remove_if(parts.begin(), parts.end(), [](const auto& part) { return part.size() < 2; }), parts.end());
    return parts;
}

}  // namespace

KeyMap key_map(const Results& results) {
    KeyMap map;
    Extent extent;
    for (const paths::Path& path : results.paths) {
        if (!tables::is_drill_hole(path.type) || path.status == tables::HoleStatus::cancelled) continue;
        KeyMap::Hole hole;
        hole.status = path.status;
        const double length = path.end_depth - path.start_depth;
        const int steps = std::max(1, static_cast<int>(std::ceil(length / trace_step)));
        for (int i = 0; i <= steps; ++i) {
            hole.trace.push_back(paths::position_at(path, path.start_depth + length * i / steps).head<2>());
            extent.take(hole.trace.back());
        }
        map.holes.push_back(std::move(hole));
    }
    double sum = 0.0;
    for (const intercepts::Intercept& hit : results.intercepts.met) sum += hit.point.z();
    if (!results.intercepts.met.empty()) map.elevation = sum / static_cast<double>(results.intercepts.met.size());
    if (extent.empty()) return map;
    const Place middle = (extent.low + extent.high) / 2.0;
    const double radius = (extent.high - extent.low).norm(), step = std::max(radius / 60.0, 5.0);
    const base::Plane level{{middle.x(), middle.y(), map.elevation}, Eigen::Vector3d::UnitZ()};
    for (std::size_t i = 0; i < results.veins.size(); ++i) {
        KeyMap::VeinLine line;
        line.vein = i;
        line.name = results.veins[i].name();
        line.parts = parts_of(results.veins[i].trace(level, radius, step), step);
        if (!line.parts.empty()) map.veins.push_back(std::move(line));
    }
    return map;
}

KeyPlan key_plan(const KeyMap& map, const base::MapFrame& frame, const std::optional<KeyLine>& line, double width_mm,
                 double height_mm, const Tools& tools) {
    const Shown shown = shown_of(map, line, width_mm, height_mm, frame.unit != base::LengthUnit::metre);
    KeyPlan plan;
    plan.metres_per_mm = shown.denominator / 1000.0;
    plan.scale_words = "1:" + spaced_thousands(shown.denominator);
    plan.draw = [map, frame, line, middle = shown.middle, metres_per_mm = plan.metres_per_mm, tools](const Box& box) {
        return draw_key_plan(map, frame, line, {middle, metres_per_mm, box}, tools);
    };
    return plan;
}

}  // namespace selvage::sheets
