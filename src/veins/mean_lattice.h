#pragma once

#include "veins/surface.h"

#include <Eigen/Core>

#include <cstddef>
#include <memory>
#include <vector>

namespace selvage::veins {

// The model's mean surface on a square lattice, bicubic in between from heights and slopes: what is drawn, and what a rough
// search looks at. A mean from thirty holes costs a thousand times more than a look-up.
class MeanLattice {
public:
    MeanLattice() = default;
    // Nodes that are needed: those within `reach` of one of `places`, m.
    MeanLattice(std::shared_ptr<const SurfaceModel> surface, const std::vector<Eigen::Vector2d>& places, double reach,
                double step);

    // Off the lattice it asks the model itself.
    MeanSurface at(const Eigen::Vector2d& place) const;
    bool covers(const Eigen::Vector2d& place) const;
    double largest_height() const { return largest_height_; }  // |w| over the lattice, m

private:
    struct Node {
        bool known = false;
        double height = 0.0;
        Eigen::Vector2d gradient = Eigen::Vector2d::Zero();
        double twist = 0.0;  // d2 height / du dv
    };
    struct Cell {
        bool known = false;
        std::size_t first = 0;                             // its lower left node
        Eigen::Vector2d within = Eigen::Vector2d::Zero();  // 0 to 1
    };
    Cell cell_of(const Eigen::Vector2d& place) const;
    void find_twists();

    std::shared_ptr<const SurfaceModel> surface_;
    Eigen::Vector2d lower_ = Eigen::Vector2d::Zero();
    double step_ = 1.0, largest_height_ = 0.0;
    std::size_t columns_ = 0, rows_ = 0;
    std::vector<Node> nodes_;
};

}  // namespace selvage::veins
