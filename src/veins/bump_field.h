#pragma once

#include "veins/square_grid.h"

#include <Eigen/Core>

#include <vector>

// Local bumps, and their sum at any place.
namespace selvage::veins {

// Height times (1 - r)^4 (4 r + 1), r the distance from its place over the radius, 0 from there on (Wendland 1995, C2).
struct Bump {
    Eigen::Vector2d place = Eigen::Vector2d::Zero();
    double radius = 1.0, height = 0.0;
};
// That shape for a height of 1, `distance` and `radius` in the same unit.
double bump_shape(double distance, double radius);

// Bumps shelved by their radius, so that a sum asks those alone that may reach the place.
class BumpField {
public:
    BumpField() = default;
    explicit BumpField(std::vector<Bump> bumps);

    double at(const Eigen::Vector2d& place) const;
    const std::vector<Bump>& bumps() const { return bumps_; }
    bool empty() const { return bumps_.empty(); }

private:
    struct Shelf {
        std::vector<Bump> bumps;  // radii within a factor of two
        SquareGrid grid;
    };
    std::vector<Bump> bumps_;
    std::vector<Shelf> shelves_;  // narrow to wide
};

}  // namespace selvage::veins
