#include "veins/outline.h"

#include "base/parallel.h"
#include "drawing/contour.h"

#include <algorithm>
#include <cmath>
#include <cstddef>

namespace selvage::veins {

namespace {

constexpr double least_cells = 4.0;  // of the lattice: smaller islands and gaps are of its own making
constexpr double apart = 1e-3;       // m between two vertices of a border
constexpr int halvings = 24;         // of a side of the lattice: to a micrometre

// A vertex lies on a side of the lattice, or on a line from a square's middle to its corner, linearly between their ends: moved
// along it to where the function itself changes sign. So the line keeps its order and cannot cross itself.
Eigen::Vector2d refined(const SignedFunction& inside, const Eigen::Vector2d& vertex, const Eigen::Vector2d& lower, double step) {
    const Eigen::Array2d steps = ((vertex - lower) / step).array();
    const Eigen::Array2d off = (steps - steps.round()).abs();
    if (off.maxCoeff() < 1e-9) return vertex;  // on a node
    Eigen::Array2d from = steps.round(), to = from;
    if (off.minCoeff() > 1e-9) {
        from = steps.floor() + 0.5;
    } else {
        const Eigen::Index axis = off.x() > off.y() ? 0 : 1;  // along which the side runs
        from(axis) = std::floor(steps(axis));
        to(axis) = from(axis) + 1.0;
    }
    Eigen::Vector2d low = lower + step * from.matrix(), high = lower + step * to.matrix();
    const bool low_is_inside = inside(low) >= 0.0;
    if (low_is_inside == (inside(high) >= 0.0)) return vertex;
    for (int i = 0; i < halvings; ++i) {
        const Eigen::Vector2d middle = (low + high) / 2.0;
        ((inside(middle) >= 0.0) == low_is_inside ? low : high) = middle;
    }
    return (low + high) / 2.0;
}

// Two sides of the lattice that meet in a node may both have come to it.
void drop_repeats(Loop& loop) {
    const auto near = [](const Eigen::Vector2d& a, const Eigen::Vector2d& b) { return (a - b).squaredNorm() < apart * apart; };
    loop.erase(std::unique(loop.begin(), loop.end(), near), loop.end());
    while (loop.size() > 1 && near(loop.front(), loop.back())) loop.pop_back();
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
        drop_repeats(loop);
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
