#include "veins/outline.h"

#include "base/parallel.h"
#include "drawing/contour.h"

#include <cmath>
#include <cstddef>

namespace selvage::veins {

namespace {

constexpr double least_cells = 4.0;  // of the lattice: smaller islands and gaps are of its own making
constexpr int halvings = 24;         // of a side of the lattice: to a micrometre

// A vertex lies on a side of the lattice, linearly between its ends: moved along it to where the function itself changes sign. So
// the line keeps its order and cannot cross itself.
Eigen::Vector2d refined(const SignedFunction& inside, const Eigen::Vector2d& vertex, const Eigen::Vector2d& lower, double step) {
    const Eigen::Array2d steps = ((vertex - lower) / step).array();
    const Eigen::Array2d off = (steps - steps.round()).abs();
    const Eigen::Index axis = off.x() > off.y() ? 0 : 1;  // along which the side runs
    if (off(axis) < 1e-9) return vertex;                  // on a node
    Eigen::Vector2d low = vertex, high = vertex;
    low(axis) = lower(axis) + step * std::floor(steps(axis));
    high(axis) = low(axis) + step;
    const bool low_is_inside = inside(low) >= 0.0;
    if (low_is_inside == (inside(high) >= 0.0)) return vertex;
    for (int i = 0; i < halvings; ++i) {
        const Eigen::Vector2d middle = (low + high) / 2.0;
        ((inside(middle) >= 0.0) == low_is_inside ? low : high) = middle;
    }
    return (low + high) / 2.0;
}

}  // namespace

std::vector<Loop> zero_contours(const SignedFunction& inside, const Eigen::Vector2d& lower, const Eigen::Vector2d& upper,
                                double step) {
    drawing::ValueGrid grid;
    grid.first = {lower.x(), lower.y()};
    grid.step_x = grid.step_y = step;
    grid.columns = static_cast<std::size_t>(std::ceil((upper.x() - lower.x()) / step)) + 1;
    grid.rows = static_cast<std::size_t>(std::ceil((upper.y() - lower.y()) / step)) + 1;
    grid.values.resize(grid.columns * grid.rows);
    base::parallel_for(grid.rows, [&](std::size_t row) {
        for (std::size_t column = 0; column < grid.columns; ++column) {
            const Eigen::Vector2d node = lower + step * Eigen::Vector2d(static_cast<double>(column), static_cast<double>(row));
            grid.values[row * grid.columns + column] = inside(node);
        }
    });
    std::vector<Loop> loops;
    for (const drawing::ContourLine& line : drawing::contour_lines(grid, 0.0)) {
        Loop loop;
        for (const drawing::Point& point : line.points) loop.push_back(refined(inside, {point.x, point.y}, lower, step));
        if (std::abs(signed_area(loop)) >= least_cells * step * step) loops.push_back(std::move(loop));
    }
    return loops;
}

double signed_area(const Loop& loop) {
    double twice = 0.0;
    for (std::size_t i = 0; i < loop.size(); ++i) {
        const Eigen::Vector2d& a = loop[i];
        const Eigen::Vector2d& b = loop[(i + 1) % loop.size()];
        twice += a.x() * b.y() - a.y() * b.x();
    }
    return twice / 2.0;
}

}  // namespace selvage::veins
