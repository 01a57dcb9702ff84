#include "veins/presence_lattice.h"

#include "base/parallel.h"

#include <algorithm>
#include <utility>

namespace selvage::veins {

namespace {

constexpr std::size_t together = 128;  // places asked at once

}  // namespace

PresenceLattice::PresenceLattice(std::shared_ptr<const Presence> presence, Lattice lattice)
    : presence_(std::move(presence)), lattice_(std::move(lattice)) {
    nodes_.resize(lattice_.needed.size());
    const std::vector<std::size_t> needed = lattice_.needed_nodes();
    base::parallel_for((needed.size() + together - 1) / together, [&](std::size_t part) {
        const std::size_t from = part * together, to = std::min(needed.size(), from + together);
        std::vector<Eigen::Vector2d> places;
        for (std::size_t i = from; i < to; ++i) places.push_back(lattice_.place_of(needed[i]));
        const std::vector<double> chances = presences_at(*presence_, places);
        for (std::size_t i = from; i < to; ++i) nodes_[needed[i]] = chances[i - from];
    });
}

double PresenceLattice::at(const Eigen::Vector2d& place) const {
    const LatticeCell cell = lattice_.cell_of(place);
    if (!cell.known) return presence_at(*presence_, place);
    const std::size_t above = cell.first + lattice_.columns;
    const double u = cell.within.x(), v = cell.within.y();
    return (1.0 - v) * ((1.0 - u) * nodes_[cell.first] + u * nodes_[cell.first + 1]) +
           v * ((1.0 - u) * nodes_[above] + u * nodes_[above + 1]);
}

}  // namespace selvage::veins
