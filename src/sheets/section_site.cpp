#include "sheets/section_site.h"

#include "drawing/clipping.h"
#include "mesh/slice.h"
#include "sheets/site_marks.h"

#include <utility>

namespace selvage::sheets {

namespace {

// What a section cuts of a solid; open lines where the solid is not closed.
void draw_cut(SectionDrawing& drawing, const site::MinedSolid& solid) {
    Rings rings;
    Marks marks;
    for (const mesh::SliceLine& line : mesh::slice(solid.mesh, drawing.view.frame.plane())) {
        std::vector<Point> points;
        for (const Eigen::Vector3d& point : line.points) points.push_back(drawing.paper_of(point));
        if (line.closed)
            rings.push_back(std::move(points));
        else
            marks.push_back(line_of(std::move(points), drawing.tools.style.line("workings")));
    }
    if (!rings.empty()) append(marks, workings_area(rings, drawing.tools));
    if (marks.empty()) return;
    drawing.put(Layer::ground, std::move(marks));
    drawing.note(Sign::workings);
}

void draw_workings(SectionDrawing& drawing) {
    const SectionFrame& frame = drawing.view.frame;
    const SheetPlane sheet = [&](const Eigen::Vector3d& point) { return OnSheet{drawing.paper_of(point), frame.offset(point)}; };
    for (const site::Working& working : drawing.results.site.workings) {
        if (working.solid == nullptr) continue;
        const Rings rings =
            shadow_on_paper(*working.solid, frame.plane(), sheet, drawing.section.half_width, drawing.view.window);
        if (rings.empty()) continue;
        for (const std::vector<Point>& ring : rings) drawing.keep_clear(ring);
        drawing.put(Layer::ground, workings_shadow(rings, drawing.tools));
        drawing.note(Sign::workings_in_slab);
        draw_cut(drawing, *working.solid);
    }
}

void draw_property(SectionDrawing& drawing) {
    if (drawing.results.site.property == nullptr) return;
    const site::Property& property = *drawing.results.site.property;
    const Box& window = drawing.view.window;
    const auto holds = [&](double x) {
        return property.holds(drawing.view.frame.at(drawing.view.distance_at(x), 0.0).head<2>());
    };
    constexpr double step_mm = 0.5;
    for (double x = window.left; x + step_mm < window.right; x += step_mm) {
        if (holds(x) == holds(x + step_mm)) continue;
        double low = x, high = x + step_mm;
        for (int halving = 0; halving < 20; ++halving) (holds((low + high) / 2.0) == holds(x) ? low : high) = (low + high) / 2.0;
        const std::vector<Point> line{{low, window.bottom}, {low, window.top}};
        drawing.put(Layer::ground, {line_of(line, drawing.tools.style.line("property"))});
        drawing.keep_clear(line);
        drawing.note(Sign::property);
    }
}

}  // namespace

void draw_site(SectionDrawing& drawing) {
    draw_workings(drawing);
    draw_property(drawing);
}

}  // namespace selvage::sheets
