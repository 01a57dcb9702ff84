#include "sheets/section_drawing.h"

#include <cmath>

namespace selvage::sheets {

namespace {

constexpr double least_tick_mm = 18.0;

}  // namespace

bool SectionDrawing::in_window(const Point& point, double inside_by_mm) const {
    const Box& box = view.window;
    return point.x >= box.left + inside_by_mm && point.x <= box.right - inside_by_mm && point.y >= box.bottom + inside_by_mm &&
           point.y <= box.top - inside_by_mm;
}

void SectionDrawing::keep_clear(const std::vector<Point>& line) {
    for (std::size_t i = 0; i + 1 < line.size(); ++i) obstacles.lines.push_back({line[i], line[i + 1]});
}

double depth_tick_step(const SectionDrawing& drawing) {
    const double least = drawing.map().length(least_tick_mm * drawing.view.metres_per_mm);
    for (double power = std::pow(10.0, std::floor(std::log10(least)));; power *= 10.0)
        for (const double first : {1.0, 2.0, 5.0})
            if (first * power >= least * (1.0 - 1e-9)) return first * power * base::metres_per(drawing.map().unit);
}

}  // namespace selvage::sheets
