#include "sheets/stated_faults.h"

#include "base/angle.h"
#include "base/plane.h"
#include "base/text.h"
#include "drawing/clipping.h"
#include "drawing/polyline.h"
#include "faults/fault_pieces.h"
#include "faults/fault_plane.h"
#include "sheets/broken_lines.h"
#include "sheets/ground.h"
#include "sheets/paper_values.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace selvage::sheets {

namespace {

// Height over a plane as it runs over the paper: at0 + x dx + y dy, m.
struct HeightOnPaper {
    double at0, dx, dy;
    double at(const Point& p) const { return at0 + p.x * dx + p.y * dy; }
};

HeightOnPaper height_on_paper(const base::Plane& plane, const PlaceOnSheet& place) {
    const double at0 = base::signed_distance(plane, place({0.0, 0.0}));
    return {at0, base::signed_distance(plane, place({1.0, 0.0})) - at0, base::signed_distance(plane, place({0.0, 1.0})) - at0};
}

// The line of height 0 across a window; nothing where the plane hardly cuts the paper's.
std::optional<drawing::Segment> zero_line(const HeightOnPaper& height, const Box& window) {
    constexpr double least_slope = 1e-6;
    const double slope = std::hypot(height.dx, height.dy);
    if (slope < least_slope) return std::nullopt;
    const Point middle{(window.left + window.right) / 2.0, (window.bottom + window.top) / 2.0};
    const double off = height.at(middle) / (slope * slope), reach = window.width() + window.height();
    const Point on{middle.x - off * height.dx, middle.y - off * height.dy};
    const double x = -height.dy / slope * reach, y = height.dx / slope * reach;
    return drawing::clipped({{on.x - x, on.y - y}, {on.x + x, on.y + y}}, window);
}

// The part of a segment at heights of at most 0.
std::optional<drawing::Segment> part_below(const drawing::Segment& segment, const HeightOnPaper& height) {
    const double a = height.at(segment.a), b = height.at(segment.b);
    if (a > 0.0 && b > 0.0) return std::nullopt;
    if (a <= 0.0 && b <= 0.0) return segment;
    const double share = a / (a - b);
    const Point at{segment.a.x + share * (segment.b.x - segment.a.x), segment.a.y + share * (segment.b.y - segment.a.y)};
    return a > 0.0 ? drawing::Segment{at, segment.b} : drawing::Segment{segment.a, at};
}

// The part of a segment below the ground: of a plane exactly, else its longest stretch.
std::optional<drawing::Segment> part_under(const drawing::Segment& segment, const site::Ground& ground,
                                           const PlaceOnSheet& place) {
    if (!ground.has_given()) return part_below(segment, height_on_paper(ground.assumed().value_or(base::Plane{}), place));
    constexpr double step_mm = 1.0;
    const double length = std::hypot(segment.b.x - segment.a.x, segment.b.y - segment.a.y);
    const int steps = std::max(1, static_cast<int>(length / step_mm));
    const auto at = [&](int i) {
        const double share = static_cast<double>(i) / steps;
        return Point{segment.a.x + share * (segment.b.x - segment.a.x), segment.a.y + share * (segment.b.y - segment.a.y)};
    };
    int first = 0, best_first = 0, best_last = 0;
    for (int i = 0; i <= steps; ++i) {
        if (height_over_ground(ground, place(at(i))) > 0.0) first = i + 1;
        if (i - first > best_last - best_first) {
            best_first = first;
            best_last = i;
        }
    }
    return best_last > best_first ? std::optional<drawing::Segment>({at(best_first), at(best_last)}) : std::nullopt;
}

constexpr double least_mm = 3.0;  // a shorter line is not drawn

// Each fault as it lies today: in pieces, where younger ones moved parts of it.
template <typename Draw>
void for_each_piece(const Results& results, const Draw& draw) {
    for (const faults::Fault& fault : results.events.faults)
        for (const faults::FaultPiece& piece : faults::pieces_of(results.events, fault)) draw(fault, piece);
}

// The stretches of a line on a fault's plane that belong to a piece of it.
std::vector<std::vector<Point>> parts_held(const std::vector<Point>& line, const faults::FaultPiece& piece,
                                           const PlaceOnSheet& place) {
    std::vector<std::vector<Point>> parts;
    bool before = false;
    for (const Point& point : line) {
        const bool held = faults::holds(piece, place(point));
        if (held && !before) parts.emplace_back();
        if (held) parts.back().push_back(point);
        before = held;
    }
    return parts;
}

// A fault's place on paper at a point of its line: the unit vector there in which one leaves the plane, and the doubt that way,
// mm: that square to the plane, over how fast one leaves it.
struct DoubtOnPaper {
    Point away;
    double sd_mm = 0.0, metres_per_mm = 1.0;
};
DoubtOnPaper doubt_at(const faults::Fault& fault, const faults::FaultPiece& piece, const Point& at, const PlaceOnSheet& place) {
    const double over = base::signed_distance(piece.plane, place(at));
    const double x = base::signed_distance(piece.plane, place({at.x + 1.0, at.y})) - over,
                 y = base::signed_distance(piece.plane, place({at.x, at.y + 1.0})) - over, a_mm = std::hypot(x, y);
    const double sd = std::hypot(faults::offset_sd(fault, piece.moved, place(at)), faults::waves_sd);
    return {{x / a_mm, y / a_mm}, sd / a_mm, a_mm};
}

WallStyle style_of(const DoubtOnPaper& doubt) { return wall_style(doubt.sd_mm * doubt.metres_per_mm, doubt.metres_per_mm); }

// On one side of a line (1 or -1), where that lies below the ground and clearly off the line.
std::vector<std::vector<Point>> band_edge(const faults::Fault& fault, const faults::FaultPiece& piece,
                                          const std::vector<Point>& line, double side, const PlaceOnSheet& place,
                                          const site::Ground* ground) {
    constexpr double quantile_90 = 1.2816, step_mm = 2.0, clear_mm = 1.5;  // of the standard normal; on paper
    const double length = drawing::length_of(line);
    const int steps = std::max(1, static_cast<int>(length / step_mm));
    std::vector<std::vector<Point>> edge;
    bool before = false;
    for (int i = 0; i <= steps; ++i) {
        const Point at = drawing::point_along(line, length * i / steps).at;
        const DoubtOnPaper doubt = doubt_at(fault, piece, at, place);
        const double off = quantile_90 * doubt.sd_mm;
        const Point there{at.x + side * off * doubt.away.x, at.y + side * off * doubt.away.y};
        const bool shown = off >= clear_mm && (ground == nullptr || height_over_ground(*ground, place(there)) <= 0.0);
        if (shown && !before) edge.emplace_back();
        if (shown) edge.back().push_back(there);
        before = shown;
    }
    edge.erase(std::remove_if(edge.begin(), edge.end(), [](const std::vector<Point>& part) { return part.size() < 3; }),
               edge.end());
    return edge;
}

StatedFault stated_fault(const faults::Fault& fault, const faults::FaultPiece& piece, std::vector<Point> line,
                         const PlaceOnSheet& place, const site::Ground* ground) {
    constexpr double step_mm = 5.0;
    StatedFault stated;
    stated.name = fault.name;
    stated.line = std::move(line);
    stated.normal = piece.plane.normal;
    const double length = drawing::length_of(stated.line);
    const int steps = std::max(1, static_cast<int>(length / step_mm));
    const auto along = [&](int i) { return length * i / steps; };
    int first = 0;
    WallStyle style = WallStyle::accurate;
    for (int i = 0; i <= steps; ++i) {
        const bool ends = i == steps;
        const WallStyle here =
            ends ? style
                 : style_of(doubt_at(fault, piece, drawing::point_along(stated.line, (along(i) + along(i + 1)) / 2.0).at, place));
        if (i > 0 && (ends || here != style)) {
            stated.stretches.push_back({drawing::part_along(stated.line, along(first), along(i)), style});
            first = i;
        }
        style = here;
    }
    for (const double side : {1.0, -1.0})
        for (std::vector<Point>& edge : band_edge(fault, piece, stated.line, side, place, ground))
            stated.band.push_back(std::move(edge));
    return stated;
}

}  // namespace

std::vector<StatedFault> faults_on_ground(const Results& results, const PlaceOnSheet& place, const Box& window) {
    constexpr double step_mm = 2.0;
    std::vector<StatedFault> faults;
    for_each_piece(results, [&](const faults::Fault& fault, const faults::FaultPiece& piece) {
        const drawing::ValueGrid over =
            values_on_paper(window, step_mm, [&](const Point& at) { return base::signed_distance(piece.plane, place(at)); });
        std::vector<Point> longest;
        for (const drawing::ContourLine& line : drawing::contour_lines(over, 0.0))
            for (std::vector<Point>& part : parts_held(line.points, piece, place))
                if (longest.empty() || drawing::length_of(part) > drawing::length_of(longest)) longest = std::move(part);
        if (longest.size() > 1 && drawing::length_of(longest) >= least_mm)
            faults.push_back(stated_fault(fault, piece, std::move(longest), place, nullptr));
    });
    return faults;
}

std::vector<StatedFault> stated_faults(const Results& results, const PlaceOnSheet& place, const Box& window,
                                       const site::Ground* ground) {
    std::vector<StatedFault> faults;
    for_each_piece(results, [&](const faults::Fault& fault, const faults::FaultPiece& piece) {
        std::optional<drawing::Segment> line = zero_line(height_on_paper(piece.plane, place), window);
        for (const base::Plane& bound : piece.bounds)
            if (line) line = part_below(*line, height_on_paper(bound, place));
        if (line && ground != nullptr) line = part_under(*line, *ground, place);
        if (line && std::hypot(line->b.x - line->a.x, line->b.y - line->a.y) >= least_mm)
            faults.push_back(stated_fault(fault, piece, {line->a, line->b}, place, ground));
    });
    return faults;
}

WallStyle style_of_end(const faults::Blocks& blocks, std::size_t block, const Eigen::Vector3d& point,
                       const Eigen::Vector3d& plane_normal, double metres_per_mm) {
    const faults::Blocks::Inside inside = blocks.inside(block, point);
    const double sd = std::hypot(faults::offset_sd(blocks.faults()[inside.fault], inside.moved, point), faults::waves_sd);
    return wall_style(sd, metres_per_mm * inside.normal.cross(plane_normal).norm());
}

const char* fault_role(WallStyle style) {
    return style == WallStyle::accurate ? "fault" : style == WallStyle::approximate ? "fault_approximate" : "fault_inferred";
}

Sign fault_sign(WallStyle style) {
    return style == WallStyle::accurate      ? Sign::fault_accurate
           : style == WallStyle::approximate ? Sign::fault_approximate
                                             : Sign::fault_inferred;
}

Marks fault_marks(const std::vector<StatedFault>& faults, const Tools& tools) {
    Marks marks;
    for (const StatedFault& fault : faults)
        for (const StatedFault::Stretch& stretch : fault.stretches)
            marks.push_back(line_of(stretch.line, tools.style.line(fault_role(stretch.style))));
    return marks;
}

drawing::LineLook fault_band_look(const Tools& tools) {
    drawing::LineLook look = tools.style.line("fault_inferred");
    look.width_mm = tools.style.line("band").width_mm;
    look.colour = tools.style.colour("off_slab");
    return look;
}

Marks fault_bands(const std::vector<StatedFault>& faults, const Tools& tools) {
    Marks marks;
    for (const StatedFault& fault : faults)
        for (const std::vector<Point>& edge : fault.band) marks.push_back(line_of(edge, fault_band_look(tools)));
    return marks;
}

std::set<Sign> fault_signs(const std::vector<StatedFault>& faults) {
    std::set<Sign> signs;
    for (const StatedFault& fault : faults)
        for (const StatedFault::Stretch& stretch : fault.stretches) signs.insert(fault_sign(stretch.style));
    return signs;
}

void add_faults(drawing::Obstacles& obstacles, const Marks& faults) {
    constexpr int as_traces = 4;  // the placer counts each line that a leader crosses
    for (int i = 0; i < as_traces; ++i) add_segments(obstacles.lines, faults);
}

drawing::Mark dip_tick(const StatedFault& fault, const Tools& tools) {
    constexpr double tick_mm = 2.0;
    const Eigen::Vector2d down = tick_mm * fault.normal.head<2>().normalized();
    const Point middle = drawing::point_along(fault.line, drawing::length_of(fault.line) / 2.0).at;
    return line_of({middle, {middle.x + down.x(), middle.y + down.y()}}, tools.style.line("fault"));
}

std::string name_with_dip(const StatedFault& fault) {
    return fault.name + ", dip " + base::fixed(base::attitude_of_normal(fault.normal).dip.degrees(), 0) + "°";
}

std::string older_words(const Results& results, const std::string& fault, const std::set<std::size_t>& veins) {
    std::string names;
    for (const std::size_t vein : veins)
        if (results.events.is_older(fault, results.veins[vein].name()))
            names += (names.empty() ? "" : ", ") + results.veins[vein].name();
    return names.empty() ? "" : "older: does not cut " + names;
}

drawing::Label line_label(const std::string& name, const std::vector<Point>& line, const Tools& tools, const std::string& note) {
    drawing::Label label;
    const auto at = [&](double share) { return drawing::point_along(line, share * drawing::length_of(line)).at; };
    label.owner = name;
    label.at = at(0.12);
    for (const double share : {0.88, 0.2, 0.8, 0.06, 0.94, 0.3, 0.7}) label.also_at.push_back(at(share));
    label.clear_mm = 0.8;
    label.lines = {{name, tools.style.text("line_name")}};
    if (!note.empty()) label.lines.push_back({note, tools.style.text("line_name")});
    label.priority = 3;
    label.listed_text = note.empty() ? name : name + ", " + note;
    return label;
}

}  // namespace selvage::sheets
