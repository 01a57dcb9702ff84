#include "veins/lattice.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace selvage::veins {

Lattice lattice_near(const std::vector<Eigen::Vector2d>& places, double reach, double step) {
    Lattice lattice;
    lattice.step = step;
    if (places.empty()) return lattice;
    Eigen::Vector2d upper = places.front();
    lattice.lower = places.front();
    for (const Eigen::Vector2d& place : places) {
        lattice.lower = lattice.lower.cwiseMin(place);
        upper = upper.cwiseMax(place);
    }
    lattice.lower -= Eigen::Vector2d::Constant(reach + step);
    upper += Eigen::Vector2d::Constant(reach + step);
    lattice.columns = static_cast<std::size_t>(std::ceil((upper.x() - lattice.lower.x()) / step)) + 1;
    lattice.rows = static_cast<std::size_t>(std::ceil((upper.y() - lattice.lower.y()) / step)) + 1;
    lattice.needed.assign(lattice.columns * lattice.rows, 1);
    return part_of(std::move(lattice), places, reach);
}

Lattice part_of(Lattice lattice, const std::vector<Eigen::Vector2d>& places, double reach) {
    for (std::size_t node = 0; node < lattice.needed.size(); ++node) {
        if (lattice.needed[node] == 0) continue;
        const Eigen::Vector2d at = lattice.place_of(node);
        lattice.needed[node] = std::any_of(places.begin(), places.end(), [&](const Eigen::Vector2d& place) {
            return (place - at).squaredNorm() <= reach * reach;
        });
    }
    return lattice;
}

LatticeCell Lattice::cell_of(const Eigen::Vector2d& place) const {
    LatticeCell cell;
    if (needed.empty()) return cell;
    const Eigen::Vector2d steps = (place - lower) / step;
    const double column = std::floor(steps.x()), row = std::floor(steps.y());
    if (!(column >= 0.0 && row >= 0.0 && column + 1.0 < static_cast<double>(columns) && row + 1.0 < static_cast<double>(rows))) {
        return cell;
    }
    cell.first = static_cast<std::size_t>(row) * columns + static_cast<std::size_t>(column);
    cell.within = steps - Eigen::Vector2d(column, row);
    cell.known = needed[cell.first] != 0 && needed[cell.first + 1] != 0 && needed[cell.first + columns] != 0 &&
                 needed[cell.first + columns + 1] != 0;
    return cell;
}

std::vector<std::size_t> Lattice::needed_nodes() const {
    std::vector<std::size_t> nodes;
    for (std::size_t node = 0; node < needed.size(); ++node)
        if (needed[node] != 0) nodes.push_back(node);
    return nodes;
}

}  // namespace selvage::veins
