#pragma once

#include <Eigen/Core>

#include <cmath>
#include <cstddef>
#include <utility>
#include <vector>

// Places sorted into squares, so that those near a place are found without asking all.
namespace selvage::veins {

class SquareGrid {
public:
    SquareGrid() = default;
    // `side` of a square, m, above 0: no one asked for may lie further off than that.
    SquareGrid(const std::vector<Eigen::Vector2d>& places, double side);

    // Calls visit(i) for the numbers of all places within `side` of this one, and of some beyond: always in the same order.
    template <typename Visit>
    void near(const Eigen::Vector2d& place, Visit visit) const {
        const Square middle = square_of(place);
        for (long row = middle.first - 1; row <= middle.first + 1; ++row) {
            const Square last{row, middle.second + 1};
            for (std::size_t k = first_from({row, middle.second - 1}); k < entries_.size() && entries_[k].first <= last; ++k)
                visit(entries_[k].second);
        }
    }

private:
    using Square = std::pair<long, long>;  // row, column
    Square square_of(const Eigen::Vector2d& place) const {
        return {static_cast<long>(std::floor(place.y() / side_)), static_cast<long>(std::floor(place.x() / side_))};
    }
    std::size_t first_from(const Square& square) const;

    double side_ = 1.0;
    std::vector<std::pair<Square, std::size_t>> entries_;  // by square, then number
};

}  // namespace selvage::veins
