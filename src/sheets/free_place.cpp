#include "sheets/free_place.h"

#include "drawing/clipping.h"

#include <algorithm>
#include <utility>

namespace selvage::sheets {

namespace {

bool is_free(const Box& box, const std::vector<Box>& boxes, const std::vector<drawing::Segment>& lines, double air) {
    const Box with_air = drawing::grown(box, air);
    return std::none_of(boxes.begin(), boxes.end(), [&](const Box& other) { return drawing::overlap(with_air, other); }) &&
           std::none_of(lines.begin(), lines.end(),
                        [&](const drawing::Segment& line) { return drawing::touches(line, with_air); });
}

// Where a note of that size may stand, its lower left corner: the window's corners, then along its sides, then further in.
std::vector<Point> places_of(const Box& window, double width, double height, double corner_gap) {
    constexpr double step = 5.0;
    const double left = window.left + corner_gap, right = window.right - corner_gap - width;
    const double foot = window.bottom + corner_gap, top = window.top - corner_gap - height;
    std::vector<Point> places{{left, foot}, {right, foot}, {left, top}, {right, top}};
    std::vector<std::pair<double, Point>> others;
    for (double y = foot; y <= top; y += step)
        for (double x = left; x <= right; x += step) {
            const double from_side = std::min(x - left, right - x), from_end = std::min(y - foot, top - y);
            others.emplace_back(std::min(from_side, from_end) * 4.0 + std::max(from_side, from_end), Point{x, y});
        }
    std::stable_sort(others.begin(), others.end(), [](const auto& a, const auto& b) { return a.first < b.first; });
    for (const auto& [badness, place] : others) places.push_back(place);
    return places;
}

}  // namespace

std::optional<Box> free_place(const Box& window, double width, double height, const TakenPaper& taken) {
    for (const Point& at : places_of(window, width, height, taken.from_window)) {
        const Box box{at.x, at.y, at.x + width, at.y + height};
        const bool within =
            box.left >= window.left && box.right <= window.right && box.bottom >= window.bottom && box.top <= window.top;
        if (within && is_free(box, taken.boxes, taken.lines, taken.air)) return box;
    }
    return std::nullopt;
}

}  // namespace selvage::sheets
