#include "sheets/emptiest_place.h"

#include "drawing/clipping.h"

#include <algorithm>
#include <cmath>

namespace selvage::sheets {

namespace {

constexpr double search_step = 4.0, edge_air = 5.0;
constexpr double least_clear = 2.5;    // mm to anything drawn
constexpr double clear_enough = 18.0;  // more is not better

// Distance from a box to what is drawn, mm, no more than `clear_enough`; 0 where it covers something. Where it comes to no more
// than `of_use` the rest is not looked at.
double clearance(const SectionDrawing& drawing, const Box& box, double of_use) {
    double least = clear_enough;
    const auto box_distance = [&box, &least](const Box& other) {
        const double dx = std::max({0.0, other.left - box.right, box.left - other.right});
        const double dy = std::max({0.0, other.bottom - box.top, box.bottom - other.top});
        return std::max(dx, dy) >= least ? least : std::sqrt(dx * dx + dy * dy);
    };
    for (const Box& other : drawing.obstacles.boxes) {
        least = std::min(least, box_distance(other));
        if (least <= of_use) return least;
    }
    for (const auto* lines : {&drawing.obstacles.lines, &drawing.obstacles.soft_lines})
        for (const drawing::Segment& line : *lines) {
            const Box about{std::min(line.a.x, line.b.x), std::min(line.a.y, line.b.y), std::max(line.a.x, line.b.x),
                            std::max(line.a.y, line.b.y)};
            if (box_distance(about) >= least) continue;
            if (drawing::touches(line, box)) return 0.0;
            double near =
                std::min({drawing::distance({box.left, box.bottom}, line), drawing::distance({box.right, box.bottom}, line),
                          drawing::distance({box.left, box.top}, line), drawing::distance({box.right, box.top}, line)});
            for (const Point& end : {line.a, line.b}) near = std::min(near, box_distance({end.x, end.y, end.x, end.y}));
            least = std::min(least, near);
            if (least <= of_use) return least;
        }
    return least;
}

// Labels want their points' surroundings: a box over a point's neighbourhood counts half as clear.
// 0 where it is not above `of_use`.
double worth(const SectionDrawing& drawing, const Box& box, double of_use) {
    const double clear = clearance(drawing, box, of_use);
    if (clear < least_clear || clear <= of_use) return 0.0;
    double crowd = 0.0;
    for (const WantedLabel& label : drawing.labels)
        if (drawing::overlap(drawing::grown(box, 12.0),
                             {label.label.at.x, label.label.at.y, label.label.at.x + 1e-3, label.label.at.y + 1e-3}))
            crowd += 1.0;
    return clear / (1.0 + 0.5 * crowd);
}

}  // namespace

std::optional<Box> emptiest_place(const SectionDrawing& drawing, double width, double height) {
    const Box room = drawing::grown(drawing.tile.core, -edge_air);
    std::optional<Box> best;
    double best_worth = 0.0;
    // From the lower left corner to the right, then up: of equals the first.
    for (double bottom = room.bottom; bottom + height <= room.top; bottom += search_step)
        for (double left = room.left; left + width <= room.right; left += search_step) {
            const Box box{left, bottom, left + width, bottom + height};
            const double here = worth(drawing, box, best_worth);
            if (here > best_worth + 1e-9) {
                best_worth = here;
                best = box;
            }
        }
    return best;
}

}  // namespace selvage::sheets
