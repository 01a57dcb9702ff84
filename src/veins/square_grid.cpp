#include "veins/square_grid.h"

#include <algorithm>

namespace selvage::veins {

SquareGrid::SquareGrid(const std::vector<Eigen::Vector2d>& places, double side) : side_(side) {
    for (std::size_t i = 0; i < places.size(); ++i) entries_.emplace_back(square_of(places[i]), i);
    std::sort(entries_.begin(), entries_.end());
}

std::size_t SquareGrid::first_from(const Square& square) const {
    const auto first = std::lower_bound(entries_.begin(), entries_.end(), square,
                                        [](const auto& entry, const Square& wanted) { return entry.first < wanted; });
    return static_cast<std::size_t>(first - entries_.begin());
}

}  // namespace selvage::veins
