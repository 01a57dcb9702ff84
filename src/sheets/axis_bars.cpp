#include "sheets/axis_bars.h"

#include "base/text.h"
#include "drawing/symbols.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <utility>

namespace selvage::sheets {

namespace {

AxisBars axis_bars(const Point& origin, const AxonometricView& view, const base::MapFrame& map, const Tools& tools) {
    constexpr double longest_mm = 24.0, gap = 1.4;
    const double most = map.length(longest_mm * view.paper.metres_per_mm), power = std::pow(10.0, std::floor(std::log10(most)));
    double round = power;
    for (const double first : {2.0, 5.0})
        if (first * power <= most) round = first * power;
    const double length = round * base::metres_per(map.unit);
    const drawing::TextLook& look = tools.style.text("scale_figure");
    const double cap = drawing::cap_height_mm(tools.fonts, look);
    AxisBars bars;
    bars.box = {origin.x, origin.y, origin.x, origin.y};
    const std::array<const char*, 3> names{"east", "north", "up"};
    for (int axis = 0; axis < 3; ++axis) {
        const Eigen::Vector3d along = Eigen::Vector3d::Unit(axis) * length / view.paper.metres_per_mm;
        const double x = view.right.dot(along), y = view.up.dot(along), run = std::hypot(x, y);
        if (run < 2.0) continue;  // seen end on
        const Point end{origin.x + x, origin.y + y};
        bars.marks.push_back(line_of({origin, end}, tools.style.line("north_arrow")));
        bars.marks.emplace_back(
            drawing::arrow_head(end, x / run, y / run, tools.style.size_mm("arrow"), tools.style.colour("ink")));
        const std::string words_there =
            base::significant(round, 4) + " " + base::symbol_of(map.unit) + " " + names[static_cast<std::size_t>(axis)];
        const drawing::Anchor anchor = axis == 2 ? drawing::Anchor::centre
                                       : x < 0.0 ? drawing::Anchor::right
                                                 : drawing::Anchor::left;
        const Point at{end.x + (axis == 2 ? 0.0 : x < 0.0 ? -gap : gap), axis == 2 ? end.y + gap : end.y - cap / 2.0};
        drawing::Text text{at, words_there, look, anchor, false, 0.0, {}};
        bars.box = drawing::united(
            bars.box, drawing::united(box_of_words(text, tools.fonts), {std::min(origin.x, end.x), std::min(origin.y, end.y),
                                                                        std::max(origin.x, end.x), std::max(origin.y, end.y)}));
        bars.marks.emplace_back(std::move(text));
    }
    return bars;
}

double covered_mm(const Box& box, const drawing::Obstacles& obstacles) {
    double sum = 0.0;
    for (const Box& other : obstacles.boxes)
        sum += std::max(0.0, std::min(box.right, other.right) - std::max(box.left, other.left)) *
               std::max(0.0, std::min(box.top, other.top) - std::max(box.bottom, other.bottom));
    return sum;
}

}  // namespace

AxisBars placed_bars(const AxonometricView& view, const drawing::Obstacles& obstacles, const base::MapFrame& map,
                     const Tools& tools) {
    constexpr double from_corner = 5.0;
    const AxisBars at_zero = axis_bars({0.0, 0.0}, view, map, tools);
    const Box room = drawing::grown(view.paper.window, -from_corner);
    std::optional<Point> best;
    double least = 0.0;
    for (const bool at_top : {false, true})
        for (const bool at_right : {false, true}) {
            const Point origin{at_right ? room.right - at_zero.box.right : room.left - at_zero.box.left,
                               at_top ? room.top - at_zero.box.top : room.bottom - at_zero.box.bottom};
            const Box box{origin.x + at_zero.box.left, origin.y + at_zero.box.bottom, origin.x + at_zero.box.right,
                          origin.y + at_zero.box.top};
            const double covered = covered_mm(box, obstacles);
            if (best && covered >= least) continue;
            best = origin;
            least = covered;
        }
    return axis_bars(*best, view, map, tools);
}

}  // namespace selvage::sheets
