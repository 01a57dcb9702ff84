#include "drawing/sheet.h"

#include <algorithm>
#include <utility>

namespace selvage::drawing {

namespace {

Point enlarged(const Point& point, double times) { return {point.x * times, point.y * times}; }

void enlarge(LineLook& look, double times) {
    look.width_mm *= times;
    for (double& part : look.dash_mm) part *= times;
}

void enlarge(Shape& shape, double times) {
    for (std::vector<Point>& ring : shape.rings)
        for (Point& point : ring) point = enlarged(point, times);
    if (shape.line) enlarge(*shape.line, times);
    if (!shape.fill) return;
    shape.fill->pattern.across_mm *= times;
    shape.fill->pattern.up_mm *= times;
    shape.fill->pattern.line_mm *= times;
}

void enlarge(Text& text, double times) {
    text.at = enlarged(text.at, times);
    text.look.size_pt *= times;
    text.halo_mm *= times;
}

}  // namespace

bool overlap(const Box& a, const Box& b) { return a.left < b.right && b.left < a.right && a.bottom < b.top && b.bottom < a.top; }

Box grown(const Box& box, double by_mm) { return {box.left - by_mm, box.bottom - by_mm, box.right + by_mm, box.top + by_mm}; }

Box united(const Box& a, const Box& b) {
    return {std::min(a.left, b.left), std::min(a.bottom, b.bottom), std::max(a.right, b.right), std::max(a.top, b.top)};
}

Sheet enlarged(Sheet sheet, double times) {
    sheet.width_mm *= times;
    sheet.height_mm *= times;
    for (Item& item : sheet.items) std::visit([times](auto& mark) { enlarge(mark, times); }, item.mark);
    for (Window& window : sheet.windows) {
        window.box = {window.box.left * times, window.box.bottom * times, window.box.right * times, window.box.top * times};
        window.metres_per_mm /= times;
        window.units_per_mm /= times;
    }
    for (Destination& destination : sheet.destinations) destination.at = enlarged(destination.at, times);
    sheet.labels.leader_mean_mm *= times;
    sheet.labels.leader_longest_mm *= times;
    return sheet;
}

}  // namespace selvage::drawing
