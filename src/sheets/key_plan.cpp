#include "sheets/key_plan.h"

#include "base/text.h"
#include "drawing/clipping.h"
#include "drawing/labels.h"
#include "drawing/polyline.h"
#include "drawing/symbols.h"
#include "sheets/label_text.h"
#include "sheets/legend_signs.h"
#include "sheets/page.h"
#include "sheets/scale_bar.h"
#include "sheets/symbols.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace selvage::sheets {

namespace {

constexpr double inset = 2.0;        // mm of free paper round what is shown
constexpr double line_inset = 4.3;   // mm round the ends of the sheet's own line: room for their letters
constexpr double foot_height = 5.0;  // mm at the picture's foot: what the signs mean, and the bar scale
constexpr double north_height = 12.0, north_width = 6.0;
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

// All holes whole, and the sheet's own line from end to end, with free paper round them; veins run on to the box's edge.
Extent extent_of(const KeyMap& map, const std::optional<KeyLine>& line, double metres_per_mm) {
    Extent extent;
    const auto take = [&](const Place& place, double free_mm) {
        extent.take(place - Place::Constant(free_mm * metres_per_mm));
        extent.take(place + Place::Constant(free_mm * metres_per_mm));
    };
    for (const KeyMap::Hole& hole : map.holes)
        for (const Place& place : hole.trace) take(place, inset);
    if (line)
        for (const Eigen::Vector3d& end : {line->left, line->right}) take(end.head<2>(), line_inset);
    if (extent.empty()) take(Place::Zero(), inset);
    return extent;
}

// How much of the ground a key plan shows.
struct Shown {
    double denominator = 1000.0;
    Place middle = Place::Zero();
};

// The largest scale of the ladder that shows all holes and the whole of the sheet's line.
Shown shown_of(const KeyMap& map, const std::optional<KeyLine>& line, double width_mm, double height_mm, const Scales& scales) {
    constexpr double tolerance = 1e-6;
    Shown shown;
    for (const double allowed : scale_ladder(scales.feet)) {
        if (allowed < least_denominator) continue;
        const double step = allowed * scales.enlarged;
        const double metres_per_mm = step / 1000.0;
        const Extent extent = extent_of(map, line, metres_per_mm);
        shown = {step, (extent.low + extent.high) / 2.0};
        const Place room = Place(width_mm, height_mm - foot_height) * metres_per_mm;
        if ((extent.high - extent.low - room).maxCoeff() <= tolerance) break;
    }
    return shown;
}

// Where plan places stand in the key plan's box.
struct Projection {
    Place middle;
    double metres_per_mm = 1.0;
    Box box;  // over the foot
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

// The bar scale at the right of the foot.
Marks scale_marks(const Box& foot, double most_mm, double metres_per_mm, const base::MapFrame& frame, const Tools& tools) {
    const double most = most_mm * frame.length(metres_per_mm);
    const double power = std::pow(10.0, std::floor(std::log10(most)));
    const double length = most >= 5.0 * power ? 5.0 * power : most >= 2.0 * power ? 2.0 * power : power;
    const double mm = length / frame.length(metres_per_mm);
    const Point right{foot.right - 2.0, foot.bottom + 1.0}, left{right.x - mm, right.y};
    return {line_of({{left.x, left.y + 0.8}, left, right, {right.x, right.y + 0.8}}, tools.style.line("scale_bar")),
            words({(left.x + right.x) / 2.0, left.y + 1.2}, base::significant(length, 4) + " " + base::symbol_of(frame.unit),
                  tools.style.text("scale_figure"), drawing::Anchor::centre)};
}

Marks hole_sign(const Point& at, bool planned, const Tools& tools) {
    const double radius = tools.style.size_mm("collar") * 0.3;
    if (!planned) return {disc(at, radius, plain(tools.style.colour("ink")))};
    return {ring(at, radius, with_colour(tools.style.line("rule"), tools.style.colour("planned")),
                 plain(tools.style.colour("white")))};
}

// From the line's middle the way one looks.
Marks view_arrow(const Point& from, const Point& unit, double length, const Tools& tools) {
    drawing::LineLook shaft = tools.style.line("section_line_strong");
    shaft.width_mm = tools.style.line("panel").width_mm;
    const Point tip{from.x + length * unit.x, from.y + length * unit.y};
    return {line_of({from, {tip.x - unit.x, tip.y - unit.y}}, shaft),
            drawing::arrow_head(tip, unit.x, unit.y, tools.style.size_mm("arrow"), tools.style.colour("ink"))};
}

bool is_planned(const KeyMap::Hole& hole) {
    return !tables::is_drilled(hole.status) && hole.status != tables::HoleStatus::active;
}

// What the signs mean, along the foot.
Marks foot_marks(const Box& foot, const KeyMap& map, bool with_fault, bool with_line, const Tools& tools) {
    const drawing::TextLook& look = tools.style.text("body");
    const double middle = (foot.bottom + foot.top) / 2.0, base = middle - drawing::cap_height_mm(tools.fonts, look) / 2.0;
    Marks marks{line_of({{foot.left, foot.top}, {foot.right, foot.top}}, tools.style.line("table_row_rule"))};
    double x = foot.left + 2.0;
    const auto entry = [&](Marks sign, double sign_width, const std::string& text) {
        append(marks, std::move(sign));
        marks.push_back(words({x + sign_width, base}, text, look));
        x += sign_width + drawing::text_width_mm(tools.fonts, look, text) + 2.6;
    };
    if (!std::all_of(map.holes.begin(), map.holes.end(), is_planned)) entry(hole_sign({x, middle}, false, tools), 1.4, "hole");
    if (std::any_of(map.holes.begin(), map.holes.end(), is_planned)) entry(hole_sign({x, middle}, true, tools), 1.4, "planned");
    if (with_fault) entry({line_of({{x, middle}, {x + 2.6, middle}}, tools.style.line("key_fault"))}, 3.2, "fault");
    if (!with_line) return marks;
    Marks sheet{line_of({{x, foot.bottom + 1.0}, {x, foot.top - 1.0}}, tools.style.line("section_line_strong"))};
    append(sheet, view_arrow({x, middle}, {1.0, 0.0}, 4.6, tools));
    entry(std::move(sheet), 5.4, "view");
    return marks;
}

std::pair<Point, Point> ends_of(const KeyLine& line, const Projection& at) {
    return {at.paper(Place(line.left.head<2>())), at.paper(Place(line.right.head<2>()))};
}

void add_line(Marks& marks, drawing::Obstacles& obstacles, const KeyLine& line, const Projection& at, const Tools& tools) {
    const auto [left, right] = ends_of(line, at);
    const Point middle{(left.x + right.x) / 2.0, (left.y + right.y) / 2.0};
    constexpr double arrow = 6.0;
    const Point unit{line.looking.x(), line.looking.y()};
    marks.push_back(line_of({left, right}, tools.style.line("section_line_strong")));
    append(marks, view_arrow(middle, unit, arrow, tools));
    obstacles.lines.push_back({left, right});
    obstacles.lines.push_back({middle, {middle.x + arrow * unit.x, middle.y + arrow * unit.y}});
}

// The letters of an end, just past it.
void add_end(Marks& marks, drawing::Obstacles& obstacles, const Point& end, const Point& other, const std::string& letters,
             const Tools& tools) {
    constexpr double gap = 0.6;
    const drawing::TextLook& look = tools.style.text("key_plan_name");
    const double half = drawing::text_width_mm(tools.fonts, look, letters) / 2.0, cap = drawing::cap_height_mm(tools.fonts, look);
    const double length = std::max(std::hypot(end.x - other.x, end.y - other.y), 1e-9);
    const double ux = (end.x - other.x) / length, uy = (end.y - other.y) / length;
    // To the nearer side of the letters' box, as the line meets it.
    const double reach = std::min(half / std::max(std::abs(ux), 1e-9), cap / 2.0 / std::max(std::abs(uy), 1e-9)) + gap;
    const Point centre{end.x + reach * ux, end.y + reach * uy};
    marks.push_back(words({centre.x, centre.y - cap / 2.0}, letters, look, drawing::Anchor::centre, tools.style.size_mm("halo")));
    obstacles.boxes.push_back({centre.x - half, centre.y - cap / 2.0, centre.x + half, centre.y + cap / 2.0});
}

// The corner of the map where the north arrow covers least; of equals the first, upper left before the others.
Box north_box(const Box& map, const drawing::Obstacles& obstacles) {
    std::optional<Box> best;
    std::ptrdiff_t least = 0;
    for (const bool at_top : {true, false})
        for (const bool at_left : {true, false}) {
            const double left = at_left ? map.left + 0.5 : map.right - 0.5 - north_width;
            const double bottom = at_top ? map.top - 0.5 - north_height : map.bottom + 0.5;
            const Box box{left, bottom, left + north_width, bottom + north_height};
            const auto touched = [&box](const drawing::Segment& line) { return drawing::touches(line, box); };
            const auto covered = std::count_if(obstacles.lines.begin(), obstacles.lines.end(), touched) +
                                 std::count_if(obstacles.soft_lines.begin(), obstacles.soft_lines.end(), touched) +
                                 std::count_if(obstacles.boxes.begin(), obstacles.boxes.end(),
                                               [&box](const Box& other) { return drawing::overlap(other, box); });
            if (best && covered >= least) continue;
            best = box;
            least = covered;
        }
    return *best;
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

// Anywhere along a line, at an end sooner than in the middle.
void along_line(drawing::Label& label, const std::vector<Point>& line) {
    const auto point = [&](double share) { return drawing::point_along(line, share * drawing::length_of(line)).at; };
    label.at = point(0.06);
    for (const double share : {0.94, 0.16, 0.84, 0.28, 0.72, 0.4, 0.6}) label.also_at.push_back(point(share));
}

std::vector<std::vector<Point>> seen_of(const KeyMap::FaultLine& fault, const Projection& at) {
    return drawing::clipped_line({at.paper(fault.a), at.paper(fault.b)}, at.box);
}

std::vector<drawing::Label> fault_names(const KeyMap& map, const Projection& at, const Tools& tools) {
    std::vector<drawing::Label> labels;
    for (const KeyMap::FaultLine& fault : map.faults)
        for (const std::vector<Point>& line : seen_of(fault, at)) {
            labels.push_back(plain_label(fault.name, {}, tools.style.text("line_name"), 2, 0.4));
            along_line(labels.back(), line);
        }
    return labels;
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
        drawing::Label label = plain_label(vein.name, {}, look, 3, 0.4);
        along_line(label, *longest);
        labels.push_back(std::move(label));
    }
    return labels;
}

Marks draw_key_plan(const KeyMap& map, const base::MapFrame& frame, const std::optional<KeyLine>& line, const Place& centre,
                    double metres_per_mm, const Box& picture, const Tools& tools) {
    const Box foot{picture.left, picture.bottom, picture.right, picture.bottom + foot_height};
    const Projection at{centre, metres_per_mm, {picture.left, foot.top, picture.right, picture.top}};
    Marks marks;
    drawing::Obstacles obstacles;
    for (const KeyMap::Hole& hole : map.holes) {
        drawing::LineLook look = tools.style.line("key_trace");
        if (is_planned(hole)) look = with_colour(look, tools.style.colour("planned"));
        const std::vector<Point> trace = at.paper(hole.trace);
        marks.push_back(line_of(trace, look));
        for (std::size_t i = 0; i + 1 < trace.size(); ++i) obstacles.soft_lines.push_back({trace[i], trace[i + 1]});
    }
    for (const KeyMap::FaultLine& fault : map.faults)
        for (const std::vector<Point>& points : seen_of(fault, at)) {
            marks.push_back(line_of(points, tools.style.line("key_fault")));
            add_obstacles(obstacles, points);
        }
    for (const KeyMap::VeinLine& vein : map.veins)
        for (const std::vector<Place>& part : vein.parts)
            for (const std::vector<Point>& points : drawing::clipped_line(at.paper(part), at.box)) {
                marks.push_back(line_of(points, with_colour(tools.style.line("single_vein"), vein_colour(vein.vein, tools))));
                add_obstacles(obstacles, points);
            }
    for (const KeyMap::Hole& hole : map.holes)
        if (!hole.trace.empty()) append(marks, hole_sign(at.paper(hole.trace.front()), is_planned(hole), tools));
    if (line) {
        const auto [left, right] = ends_of(*line, at);
        add_line(marks, obstacles, *line, at, tools);
        add_end(marks, obstacles, left, right, line->left_letters, tools);
        add_end(marks, obstacles, right, left, line->right_letters, tools);
    }
    const Box north = north_box(at.box, obstacles);
    obstacles.boxes.push_back(north);
    marks.push_back(box_area(north, plain(tools.style.colour("white"))));
    append(marks, north_arrow({(north.left + north.right) / 2.0, north.bottom + 1.0}, 7.0, tools));
    const bool any_fault = std::any_of(map.faults.begin(), map.faults.end(),
                                       [&](const KeyMap::FaultLine& fault) { return !seen_of(fault, at).empty(); });
    append(marks, foot_marks(foot, map, any_fault, line.has_value(), tools));
    constexpr double scale_most = 20.0, scale_beside_fault = 12.0;  // mm
    append(marks, scale_marks(foot, any_fault ? scale_beside_fault : scale_most, metres_per_mm, frame, tools));
    std::vector<drawing::Label> names = vein_names(map, at, tools);
    for (drawing::Label& name : fault_names(map, at, tools)) names.push_back(std::move(name));
    add_words(marks, names, obstacles, at.box, tools);
    return marks;
}

}  // namespace

KeyPlan key_plan(const KeyMap& map, const base::MapFrame& frame, const std::optional<KeyLine>& line, double width_mm,
                 double height_mm, const Tools& tools) {
    const Scales scales{frame.unit != base::LengthUnit::metre, tools.style.page.enlarged};
    const Shown shown = shown_of(map, line, width_mm, height_mm, scales);
    KeyPlan plan;
    plan.metres_per_mm = shown.denominator / 1000.0;
    plan.scale_words = "1:" + spaced_thousands(shown.denominator / scales.enlarged);
    if (!map.veins.empty()) {
        const std::string level = length_text(map.elevation + frame.origin.z(), frame, 0);
        plan.scale_words = (map.veins.size() == 1 ? "vein at " : "veins at ") + level + "  ·  " + plan.scale_words;
    }
    plan.draw = [map, frame, line, middle = shown.middle, metres_per_mm = plan.metres_per_mm, tools](const Box& box) {
        return draw_key_plan(map, frame, line, middle, metres_per_mm, box, tools);
    };
    return plan;
}

}  // namespace selvage::sheets
