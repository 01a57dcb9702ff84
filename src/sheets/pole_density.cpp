#include "sheets/pole_density.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <numeric>

namespace selvage::sheets {

namespace {

constexpr double rim = 1.03;           // the grid's half width, radii: contours run out over the rim
constexpr double nothing_below = -14;  // exponent

drawing::ValueGrid grid_of(std::size_t nodes, const std::function<double(const Eigen::Vector3d&)>& value) {
    drawing::ValueGrid grid;
    grid.first = {-rim, -rim};
    grid.step_x = grid.step_y = 2.0 * rim / static_cast<double>(nodes - 1);
    grid.columns = grid.rows = nodes;
    grid.values.reserve(nodes * nodes);
    for (std::size_t row = 0; row < nodes; ++row)
        for (std::size_t column = 0; column < nodes; ++column)
            grid.values.push_back(value(line_at(grid.first.x + static_cast<double>(column) * grid.step_x,
                                                grid.first.y + static_cast<double>(row) * grid.step_y)));
    return grid;
}

}  // namespace

Eigen::Vector3d line_at(double x, double y) {
    // r = sqrt(2) sin(c/2), c from straight down: the z part is -cos(c) = r^2 - 1, the level part r sqrt(2 - r^2).
    const double r2 = std::min(2.0, x * x + y * y);
    const double level = std::sqrt(2.0 - r2);
    return {x * level, y * level, r2 - 1.0};
}

double density_at(const Eigen::Vector3d& line, const std::vector<Eigen::Vector3d>& poles, const std::vector<double>& weights) {
    const auto count = static_cast<double>(poles.size());
    const double k = 2.0 * (1.0 + count / 9.0);
    const double even = count / k, sd = std::sqrt(count * (k / 2.0 - 1.0)) / k;
    const double share = count / std::accumulate(weights.begin(), weights.end(), 0.0);
    double sum = 0.0;
    for (std::size_t i = 0; i < poles.size(); ++i)
        if (const double exponent = k * (std::abs(poles[i].dot(line)) - 1.0); exponent > nothing_below)
            sum += share * weights[i] * std::exp(exponent);
    return (sum - even) / sd;
}

drawing::ValueGrid density_grid(const std::vector<Eigen::Vector3d>& poles, const std::vector<double>& weights,
                                std::size_t nodes) {
    return grid_of(nodes, [&](const Eigen::Vector3d& line) { return density_at(line, poles, weights); });
}

drawing::ValueGrid meeting_grid(const std::vector<Eigen::Vector3d>& hole_directions, std::size_t nodes) {
    return grid_of(nodes, [&](const Eigen::Vector3d& line) {
        double best = 0.0;
        for (const Eigen::Vector3d& direction : hole_directions) best = std::max(best, std::abs(direction.dot(line)));
        return best;
    });
}

}  // namespace selvage::sheets
