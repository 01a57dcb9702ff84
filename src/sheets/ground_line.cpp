#include "sheets/ground_line.h"

#include "drawing/polyline.h"

namespace selvage::sheets {

Marks ground_line_marks(const std::vector<Point>& line, const Tools& tools, bool beyond) {
    if (line.size() < 2) return {};
    const double stroke = tools.style.size_mm("ground_stroke"), every = tools.style.size_mm("ground_stroke_every");
    drawing::Shape strokes;
    strokes.line = tools.style.line("ground_hatch");
    const double length = drawing::length_of(line);
    for (double along = every / 2.0; along < length; along += every) {
        const Point top = drawing::point_along(line, along).at;
        strokes.rings.push_back({top, {top.x - 0.6 * stroke, top.y - 0.8 * stroke}});
    }
    return {strokes, line_of(line, tools.style.line(beyond ? "ground_assumed" : "ground"))};
}

}  // namespace selvage::sheets
