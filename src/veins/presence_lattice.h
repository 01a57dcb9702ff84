#pragma once

#include "veins/lattice.h"
#include "veins/presence.h"

#include <Eigen/Core>

#include <memory>
#include <vector>

namespace selvage::veins {

// The chance that the vein's window is open, on a lattice, linear in between: what is drawn, and what ends the model.
class PresenceLattice {
public:
    PresenceLattice(std::shared_ptr<const Presence> presence, Lattice lattice);
    // Off the lattice it asks the model itself.
    double at(const Eigen::Vector2d& place) const;

private:
    std::shared_ptr<const Presence> presence_;
    Lattice lattice_;
    std::vector<double> nodes_;
};

}  // namespace selvage::veins
