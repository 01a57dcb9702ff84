#include "veins/mean_lattice.h"

#include "base/parallel.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <utility>

namespace selvage::veins {

namespace {

// Weights of the value and slope at 0 and at 1 of a cubic on [0, 1], and their derivatives.
struct Cubic {
    std::array<double, 2> value, slope, value_rate, slope_rate;
};

Cubic cubic_at(double t) {
    const double t2 = t * t, t3 = t2 * t;
    return {{1.0 - 3.0 * t2 + 2.0 * t3, 3.0 * t2 - 2.0 * t3},
            {t - 2.0 * t2 + t3, t3 - t2},
            {6.0 * (t2 - t), 6.0 * (t - t2)},
            {1.0 - 4.0 * t + 3.0 * t2, 3.0 * t2 - 2.0 * t}};
}

}  // namespace

MeanLattice::MeanLattice(std::shared_ptr<const SurfaceModel> surface, const std::vector<Eigen::Vector2d>& places, double reach,
                         double step)
    : surface_(std::move(surface)), step_(step) {
    if (places.empty()) return;
    Eigen::Vector2d upper = places.front();
    lower_ = places.front();
    for (const Eigen::Vector2d& place : places) {
        lower_ = lower_.cwiseMin(place);
        upper = upper.cwiseMax(place);
    }
    lower_ -= Eigen::Vector2d::Constant(reach + step);
    upper += Eigen::Vector2d::Constant(reach + step);
    columns_ = static_cast<std::size_t>(std::ceil((upper.x() - lower_.x()) / step)) + 1;
    rows_ = static_cast<std::size_t>(std::ceil((upper.y() - lower_.y()) / step)) + 1;
    nodes_.resize(columns_ * rows_);
    base::parallel_for(rows_, [&](std::size_t row) {
        for (std::size_t column = 0; column < columns_; ++column) {
            const Eigen::Vector2d node = lower_ + step_ * Eigen::Vector2d(static_cast<double>(column), static_cast<double>(row));
            const bool needed = std::any_of(places.begin(), places.end(), [&](const Eigen::Vector2d& place) {
                return (place - node).squaredNorm() <= reach * reach;
            });
            if (!needed) continue;
            const MeanSurface mean = mean_at(*surface_, node);
            nodes_[row * columns_ + column] = {true, mean.height, mean.gradient, 0.0};
        }
    });
    for (const Node& node : nodes_) largest_height_ = std::max(largest_height_, std::abs(node.height));
    find_twists();
}

// From the slopes of the neighbours, the mean of both ways; one-sided at the rim.
void MeanLattice::find_twists() {
    const auto rate = [&](std::size_t node, std::size_t before, std::size_t after, bool has_before, bool has_after, int axis) {
        const std::size_t low = has_before && nodes_[before].known ? before : node;
        const std::size_t high = has_after && nodes_[after].known ? after : node;
        const double steps = (low != node ? 1.0 : 0.0) + (high != node ? 1.0 : 0.0);
        return steps == 0.0 ? 0.0 : (nodes_[high].gradient[axis] - nodes_[low].gradient[axis]) / (steps * step_);
    };
    for (std::size_t row = 0; row < rows_; ++row) {
        for (std::size_t column = 0; column < columns_; ++column) {
            const std::size_t node = row * columns_ + column;
            if (!nodes_[node].known) continue;
            const double along = rate(node, node - 1, node + 1, column > 0, column + 1 < columns_, 1);
            const double up = rate(node, node - columns_, node + columns_, row > 0, row + 1 < rows_, 0);
            nodes_[node].twist = (along + up) / 2.0;
        }
    }
}

MeanLattice::Cell MeanLattice::cell_of(const Eigen::Vector2d& place) const {
    Cell cell;
    if (nodes_.empty()) return cell;
    const Eigen::Vector2d steps = (place - lower_) / step_;
    const double column = std::floor(steps.x()), row = std::floor(steps.y());
    if (!(column >= 0.0 && row >= 0.0 && column + 1.0 < static_cast<double>(columns_) &&
          row + 1.0 < static_cast<double>(rows_))) {
        return cell;
    }
    cell.first = static_cast<std::size_t>(row) * columns_ + static_cast<std::size_t>(column);
    cell.within = steps - Eigen::Vector2d(column, row);
    cell.known = nodes_[cell.first].known && nodes_[cell.first + 1].known && nodes_[cell.first + columns_].known &&
                 nodes_[cell.first + columns_ + 1].known;
    return cell;
}

bool MeanLattice::covers(const Eigen::Vector2d& place) const { return cell_of(place).known; }

MeanSurface MeanLattice::at(const Eigen::Vector2d& place) const {
    const Cell cell = cell_of(place);
    if (!cell.known) return mean_at(*surface_, place);
    const Cubic u = cubic_at(cell.within.x()), v = cubic_at(cell.within.y());
    MeanSurface mean;
    for (std::size_t j = 0; j < 2; ++j) {
        for (std::size_t i = 0; i < 2; ++i) {
            const Node& node = nodes_[cell.first + i + j * columns_];
            const double du = node.gradient.x() * step_, dv = node.gradient.y() * step_, twist = node.twist * step_ * step_;
            mean.height +=
                (node.height * u.value[i] + du * u.slope[i]) * v.value[j] + (dv * u.value[i] + twist * u.slope[i]) * v.slope[j];
            mean.gradient.x() += ((node.height * u.value_rate[i] + du * u.slope_rate[i]) * v.value[j] +
                                  (dv * u.value_rate[i] + twist * u.slope_rate[i]) * v.slope[j]) /
                                 step_;
            mean.gradient.y() += ((node.height * u.value[i] + du * u.slope[i]) * v.value_rate[j] +
                                  (dv * u.value[i] + twist * u.slope[i]) * v.slope_rate[j]) /
                                 step_;
        }
    }
    return mean;
}

}  // namespace selvage::veins
