#pragma once

#include "drawing/sheet.h"

#include <cstddef>
#include <vector>

// Lines of equal value and the areas between them, on a regular grid of values. Units are the caller's.
namespace selvage::drawing {

// Values at the nodes of a grid, row by row from below, each row from the left. NaN where there is none: the four cells round
// such a node are left out.
struct ValueGrid {
    Point first;                        // the lower left node
    double step_x = 1.0, step_y = 1.0;  // > 0
    std::size_t columns = 0, rows = 0;  // nodes
    std::vector<double> values;         // columns * rows

    double at(std::size_t column, std::size_t row) const { return values[row * columns + column]; }
};

struct ContourLine {
    std::vector<Point> points;  // a closed one without its first point again
    bool closed = false;
};

// The lines on which the value is `level`, higher values to their left; within a cell linear on the four triangles that its
// centre (the mean of its corners) makes, so that no saddle is ambiguous. A node exactly at the level counts as above it.
// Ordered by their lowest, then leftmost point.
std::vector<ContourLine> contour_lines(const ValueGrid& grid, double level);

// The rings (even-odd, ready to fill) round the area where low <= value < high. Infinite limits are allowed.
std::vector<std::vector<Point>> contour_area(const ValueGrid& grid, double low, double high);

}  // namespace selvage::drawing
