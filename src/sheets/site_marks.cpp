#include "sheets/site_marks.h"

#include "drawing/clipping.h"
#include "drawing/polyline.h"
#include "mesh/slice.h"
#include "sheets/paper_values.h"
#include "sheets/stated_faults.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace selvage::sheets {

namespace {

constexpr double grain_mm = 0.2;                     // of a shadow's outline
constexpr double hatch_mm = 1.1;                     // between strokes
constexpr double hatch_angle = -0.7853981633974483;  // falling to the right: the ground's strokes rise
constexpr std::size_t most_names = 12;

drawing::Shape outline_of(const Rings& rings, const drawing::LineLook& look) {
    drawing::Shape shape;
    shape.rings = rings;
    shape.closed = true;
    shape.line = look;
    return shape;
}

// A mask over a part of the paper.
class Mask {
public:
    explicit Mask(const Box& box) : grid_(values_on_paper(box, grain_mm, [](const Point&) { return -1.0; })) {}

    // Sets the nodes within rings, row by row (even-odd rule).
    void fill(const Rings& rings) {
        for (std::size_t row = 0; row < grid_.rows; ++row) {
            const double y = grid_.first.y + static_cast<double>(row) * grid_.step_y;
            std::vector<double> crossings;
            for (const std::vector<Point>& ring : rings)
                for (std::size_t i = 0; i < ring.size(); ++i) {
                    const Point &a = ring[i], &b = ring[(i + 1) % ring.size()];
                    if ((a.y > y) != (b.y > y)) crossings.push_back(a.x + (y - a.y) / (b.y - a.y) * (b.x - a.x));
                }
            std::sort(crossings.begin(), crossings.end());
            for (std::size_t i = 1; i < crossings.size(); i += 2) set(row, crossings[i - 1], crossings[i]);
        }
    }
    Rings outline() const {
        Rings rings;
        for (const std::vector<Point>& ring : drawing::contour_area(grid_, 0.0, 2.0))
            if (std::vector<Point> thinned = drawing::simplified(ring, grain_mm * 0.7); thinned.size() > 2)
                rings.push_back(std::move(thinned));
        return rings;
    }

private:
    void set(std::size_t row, double from, double to) {
        const double first = std::max(0.0, std::ceil((from - grid_.first.x) / grid_.step_x));
        const double last = std::min(static_cast<double>(grid_.columns) - 1.0, std::floor((to - grid_.first.x) / grid_.step_x));
        for (double column = first; column <= last; ++column)
            grid_.values[row * grid_.columns + static_cast<std::size_t>(column)] = 1.0;
    }
    drawing::ValueGrid grid_;
};

// What of a triangle lies within the reach of the plane: cut by both its faces (Sutherland & Hodgman 1974).
std::vector<OnSheet> within_reach(std::vector<OnSheet> corners, double reach) {
    for (const double side : {1.0, -1.0}) {
        std::vector<OnSheet> kept;
        for (std::size_t i = 0; i < corners.size(); ++i) {
            const OnSheet &a = corners[i], &b = corners[(i + 1) % corners.size()];
            const double over_a = side * a.off - reach, over_b = side * b.off - reach;
            if (over_a <= 0.0) kept.push_back(a);
            if ((over_a <= 0.0) == (over_b <= 0.0)) continue;
            const double share = over_a / (over_a - over_b);
            kept.push_back(
                {{a.at.x + share * (b.at.x - a.at.x), a.at.y + share * (b.at.y - a.at.y)}, a.off + share * (b.off - a.off)});
        }
        corners = std::move(kept);
    }
    return corners;
}

Box box_of(const Rings& rings) {
    Box box{1e300, 1e300, -1e300, -1e300};
    for (const std::vector<Point>& ring : rings)
        for (const Point& at : ring)
            box = {std::min(box.left, at.x), std::min(box.bottom, at.y), std::max(box.right, at.x), std::max(box.top, at.y)};
    return box;
}

Rings rings_on_plan(const std::vector<site::Ring>& rings, const PaperFrame& frame) {
    Rings drawn;
    for (const site::Ring& ring : rings) {
        drawn.emplace_back();
        for (const Eigen::Vector2d& place : ring) drawn.back().push_back(frame.paper_from_drawn(place));
    }
    return drawn;
}

drawing::Label name_of(const std::string& name, std::vector<Point> outline, const Tools& tools) {
    outline.push_back(outline.front());
    drawing::Label label = line_label(name, outline, tools);
    label.owner = "workings " + name;
    return label;
}

}  // namespace

Marks workings_area(const Rings& rings, const Tools& tools) {
    drawing::Shape strokes;
    strokes.line = tools.style.line("workings_hatch");
    for (const drawing::Segment& stroke : drawing::hatch(rings, hatch_angle, hatch_mm))
        strokes.rings.push_back({stroke.a, stroke.b});
    Marks marks;
    if (!strokes.rings.empty()) marks.emplace_back(std::move(strokes));
    marks.emplace_back(outline_of(rings, tools.style.line("workings")));
    return marks;
}

Marks workings_shadow(const Rings& rings, const Tools& tools) { return {outline_of(rings, tools.style.line("workings_shadow"))}; }

Rings shadow_on_paper(const site::MinedSolid& solid, const base::Plane& plane, const SheetPlane& sheet, double reach,
                      const Box& window) {
    std::vector<OnSheet> places;
    places.reserve(solid.mesh.points.size());
    for (const Eigen::Vector3d& point : solid.mesh.points) places.push_back(sheet(point));
    Rings parts;
    for (const std::array<int, 3>& triangle : solid.mesh.triangles) {
        std::vector<OnSheet> corners;
        for (const int corner : triangle) corners.push_back(places[static_cast<std::size_t>(corner)]);
        corners = within_reach(std::move(corners), reach);
        if (corners.size() < 3) continue;
        parts.emplace_back();
        for (const OnSheet& corner : corners) parts.back().push_back(corner.at);
    }
    std::vector<Rings> cuts;
    for (const double off : {-reach, 0.0, reach}) {
        cuts.emplace_back();
        for (const mesh::SliceLine& line : mesh::slice(solid.mesh, {plane.point + off * plane.normal, plane.normal})) {
            if (!line.closed) continue;
            cuts.back().emplace_back();
            for (const Eigen::Vector3d& point : line.points) cuts.back().back().push_back(sheet(point).at);
        }
    }
    if (parts.empty()) return {};
    const Box all = drawing::grown(box_of(parts), 2.0 * grain_mm), room = drawing::grown(window, 1.0);
    const Box box{std::max(all.left, room.left), std::max(all.bottom, room.bottom), std::min(all.right, room.right),
                  std::min(all.top, room.top)};
    if (box.width() < grain_mm || box.height() < grain_mm) return {};
    Mask mask(box);
    for (const std::vector<Point>& part : parts) mask.fill({part});
    for (const Rings& cut : cuts) mask.fill(cut);
    return mask.outline();
}

PlanSite plan_site(const site::Site& site, const PaperFrame& frame, const Tools& tools) {
    PlanSite drawn;
    if (site.property)
        for (const std::vector<site::Ring>& area : site.property->areas())
            drawn.property.emplace_back(outline_of(rings_on_plan(area, frame), tools.style.line("property")));
    const SheetPlane from_above = [&frame](const Eigen::Vector3d& point) {
        return OnSheet{frame.paper_from_drawn(point.head<2>()), point.z()};
    };
    for (const site::Working& working : site.workings) {
        const Rings rings = working.outline.empty() ? shadow_on_paper(*working.solid, {}, from_above, 1e9, frame.window)
                                                    : rings_on_plan(working.outline, frame);
        if (rings.empty() || !drawing::overlap(box_of(rings), frame.window)) continue;
        append(drawn.workings, workings_area(rings, tools));
        if (!working.name.empty() && drawn.names.size() < most_names)
            drawn.names.push_back(name_of(working.name, rings.front(), tools));
    }
    return drawn;
}

}  // namespace selvage::sheets
