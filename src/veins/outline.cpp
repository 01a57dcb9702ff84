#include "veins/outline.h"

#include "base/parallel.h"
#include "drawing/contour.h"

#include <cmath>
#include <cstddef>

namespace selvage::veins {

namespace {

constexpr int refinements = 3;    // of a vertex, from the lattice's straight lines to the function itself
constexpr double probe = 1e-3;    // of the lattice's step, for the function's slope
constexpr double farthest = 0.5;  // steps that a vertex may move

Eigen::Vector2d slope_of(const SignedFunction& inside, const Eigen::Vector2d& place, double reach) {
    const Eigen::Vector2d right(reach, 0.0), up(0.0, reach);
    return Eigen::Vector2d(inside(place + right) - inside(place - right), inside(place + up) - inside(place - up)) /
           (2.0 * reach);
}

Eigen::Vector2d refined(const SignedFunction& inside, const Eigen::Vector2d& start, double step) {
    Eigen::Vector2d place = start;
    for (int round = 0; round < refinements; ++round) {
        const Eigen::Vector2d slope = slope_of(inside, place, probe * step);
        if (slope.squaredNorm() < 1e-6) return start;  // a ridge: no way to go
        place -= inside(place) * slope / slope.squaredNorm();
    }
    return (place - start).norm() < farthest * step ? place : start;
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
        for (const drawing::Point& point : line.points) loop.push_back(refined(inside, {point.x, point.y}, step));
        if (loop.size() >= 3) loops.push_back(std::move(loop));
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
