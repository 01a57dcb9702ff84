#include "veins/mean_lattice.h"

#include <algorithm>
#include <array>
#include <cmath>
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

MeanLattice::MeanLattice(std::shared_ptr<const SurfaceModel> surface, Lattice lattice)
    : surface_(std::move(surface)), lattice_(std::move(lattice)) {
    nodes_.resize(lattice_.needed.size());
    const std::vector<std::size_t> needed = lattice_.needed_nodes();
    std::vector<Eigen::Vector2d> places;
    for (const std::size_t node : needed) places.push_back(lattice_.place_of(node));
    const std::vector<MeanSurface> means = means_at(*surface_, places);
    for (std::size_t i = 0; i < needed.size(); ++i) nodes_[needed[i]] = {means[i].height, means[i].gradient, 0.0};
    for (const Node& node : nodes_) largest_height_ = std::max(largest_height_, std::abs(node.height));
    find_twists();
}

// From the slopes of the neighbours, the mean of both ways; one-sided at the rim.
void MeanLattice::find_twists() {
    const auto rate = [&](std::size_t node, std::size_t before, std::size_t after, bool has_before, bool has_after, int axis) {
        const std::size_t low = has_before && lattice_.needed[before] != 0 ? before : node;
        const std::size_t high = has_after && lattice_.needed[after] != 0 ? after : node;
        const double steps = (low != node ? 1.0 : 0.0) + (high != node ? 1.0 : 0.0);
        return steps == 0.0 ? 0.0 : (nodes_[high].gradient[axis] - nodes_[low].gradient[axis]) / (steps * lattice_.step);
    };
    const std::size_t columns = lattice_.columns;
    for (const std::size_t node : lattice_.needed_nodes()) {
        const std::size_t column = node % columns, row = node / columns;
        const double along = rate(node, node - 1, node + 1, column > 0, column + 1 < columns, 1);
        const double up = rate(node, node - columns, node + columns, row > 0, row + 1 < lattice_.rows, 0);
        nodes_[node].twist = (along + up) / 2.0;
    }
}

MeanSurface MeanLattice::at(const Eigen::Vector2d& place) const {
    const LatticeCell cell = lattice_.cell_of(place);
    if (!cell.known) return mean_at(*surface_, place);
    const double step = lattice_.step;
    const Cubic u = cubic_at(cell.within.x()), v = cubic_at(cell.within.y());
    MeanSurface mean;
    for (std::size_t j = 0; j < 2; ++j) {
        for (std::size_t i = 0; i < 2; ++i) {
            const Node& node = nodes_[cell.first + i + j * lattice_.columns];
            const double du = node.gradient.x() * step, dv = node.gradient.y() * step, twist = node.twist * step * step;
            mean.height +=
                (node.height * u.value[i] + du * u.slope[i]) * v.value[j] + (dv * u.value[i] + twist * u.slope[i]) * v.slope[j];
            mean.gradient.x() += ((node.height * u.value_rate[i] + du * u.slope_rate[i]) * v.value[j] +
                                  (dv * u.value_rate[i] + twist * u.slope_rate[i]) * v.slope[j]) /
                                 step;
            mean.gradient.y() += ((node.height * u.value[i] + du * u.slope[i]) * v.value_rate[j] +
                                  (dv * u.value[i] + twist * u.slope[i]) * v.slope_rate[j]) /
                                 step;
        }
    }
    return mean;
}

}  // namespace selvage::veins
