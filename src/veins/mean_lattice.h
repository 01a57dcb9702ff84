#pragma once

#include "veins/lattice.h"
#include "veins/surface.h"

#include <Eigen/Core>

#include <memory>
#include <vector>

namespace selvage::veins {

// The model's mean surface on a lattice, bicubic in between from heights and slopes: what is drawn, and what a rough search looks
// at. A mean from thirty holes costs a thousand times more than a look-up.
class MeanLattice {
public:
    MeanLattice() = default;
    MeanLattice(std::shared_ptr<const SurfaceModel> surface, Lattice lattice);

    // Off the lattice it asks the model itself.
    MeanSurface at(const Eigen::Vector2d& place) const;
    bool covers(const Eigen::Vector2d& place) const { return lattice_.cell_of(place).known; }
    double largest_height() const { return largest_height_; }  // |w| over the lattice, m
    const Lattice& lattice() const { return lattice_; }

private:
    struct Node {
        double height = 0.0;
        Eigen::Vector2d gradient = Eigen::Vector2d::Zero();
        double twist = 0.0;  // d2 height / du dv
    };
    void find_twists();

    std::shared_ptr<const SurfaceModel> surface_;
    Lattice lattice_;
    double largest_height_ = 0.0;
    std::vector<Node> nodes_;
};

}  // namespace selvage::veins
