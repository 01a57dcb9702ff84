#pragma once

#include "drawing/contour.h"
#include "drawing/sheet.h"

#include <cmath>

namespace selvage::sheets {

// Values at nodes over a window of the paper, about `step_mm` apart, its corners among them.
template <typename Value>
drawing::ValueGrid values_on_paper(const drawing::Box& window, double step_mm, const Value& value) {
    drawing::ValueGrid grid;
    const auto count = [step_mm](double length) { return static_cast<std::size_t>(std::ceil(length / step_mm)) + 1; };
    grid.first = {window.left, window.bottom};
    grid.columns = count(window.width());
    grid.rows = count(window.height());
    grid.step_x = window.width() / static_cast<double>(grid.columns - 1);
    grid.step_y = window.height() / static_cast<double>(grid.rows - 1);
    grid.values.reserve(grid.columns * grid.rows);
    for (std::size_t row = 0; row < grid.rows; ++row)
        for (std::size_t column = 0; column < grid.columns; ++column)
            grid.values.push_back(value(drawing::Point{window.left + static_cast<double>(column) * grid.step_x,
                                                       window.bottom + static_cast<double>(row) * grid.step_y}));
    return grid;
}

}  // namespace selvage::sheets
