#pragma once

#include <Eigen/Core>

#include <cstddef>
#include <vector>

// A square lattice over those parts of a chart that lie near given places. Private to this room.
namespace selvage::veins {

struct LatticeCell {
    bool known = false;                                // all four corners are needed nodes
    std::size_t first = 0;                             // its lower left node
    Eigen::Vector2d within = Eigen::Vector2d::Zero();  // 0 to 1 each way
};

struct Lattice {
    Eigen::Vector2d lower = Eigen::Vector2d::Zero();  // (u, v) of the first node, m
    double step = 1.0;                                // m
    std::size_t columns = 0, rows = 0;
    std::vector<char> needed;  // row by row

    Eigen::Vector2d place_of(std::size_t node) const {
        return lower + step * Eigen::Vector2d(static_cast<double>(node % columns), static_cast<double>(node / columns));
    }
    LatticeCell cell_of(const Eigen::Vector2d& place) const;
    std::vector<std::size_t> needed_nodes() const;
};

// Nodes within `reach` of one of `places` are needed, m.
Lattice lattice_near(const std::vector<Eigen::Vector2d>& places, double reach, double step);
// The nodes of a lattice that lie within `reach` of one of `places`.
Lattice part_of(Lattice lattice, const std::vector<Eigen::Vector2d>& places, double reach);

}  // namespace selvage::veins
