#include "sheets/long_section_site.h"

#include "drawing/polyline.h"
#include "sheets/paper_values.h"
#include "sheets/site_marks.h"

#include <utility>

namespace selvage::sheets {

namespace {

Marks property_on_plane(const PlaneLayout& layout, const PaperFrame& frame, const site::Property& property, const Tools& tools) {
    constexpr double step_mm = 1.5, thinning_mm = 0.1;
    const drawing::ValueGrid inside = values_on_paper(frame.window, step_mm, [&](const Point& at) {
        return property.inside_by(layout.world_from_layout(frame.drawn_from_paper(at)).head<2>());
    });
    Marks marks;
    for (drawing::ContourLine& line : drawing::contour_lines(inside, 0.0)) {
        if (line.closed) line.points.push_back(line.points.front());
        if (line.points.size() > 1)
            marks.push_back(line_of(drawing::simplified(line.points, thinning_mm), tools.style.line("property")));
    }
    return marks;
}

}  // namespace

LongSectionSite long_section_site(const LongSectionContent& content, const PaperFrame& frame, const Results& results,
                                  const Tools& tools) {
    LongSectionSite drawn;
    const PlaneLayout& layout = content.layout;
    if (results.site.property) drawn.property = property_on_plane(layout, frame, *results.site.property, tools);
    const base::Plane plane{layout.origin, layout.normal};
    const SheetPlane sheet = [&](const Eigen::Vector3d& point) {
        return OnSheet{frame.paper_from_drawn(layout.layout_from_world(point)), base::signed_distance(plane, point)};
    };
    for (const site::Working& working : results.site.workings) {
        if (working.solid == nullptr) continue;
        const Rings rings = shadow_on_paper(*working.solid, plane, sheet, near_vein, frame.window);
        if (!rings.empty()) append(drawn.workings, workings_area(rings, tools));
    }
    return drawn;
}

}  // namespace selvage::sheets
