#pragma once

#include "base/plane.h"
#include "faults/fault.h"
#include "paths/path.h"

#include <Eigen/Core>

#include <cstddef>
#include <string>
#include <vector>

namespace selvage::faults {

// The blocks into which faults cut the ground, and how each moved: a point today = the point before the faults + its block's
// shift. Faults are undone the youngest first; an older one is a plane again once the younger ones are undone.
class Blocks {
public:
    Blocks();                                    // one block, nothing moved
    explicit Blocks(std::vector<Fault> faults);  // oldest first

    std::size_t count() const { return blocks_.size(); }
    bool is_cut() const { return count() > 1; }
    const std::vector<Fault>& faults() const { return faults_; }
    // "North Fault+ Cross Fault-": hanging-wall side + or foot-wall side -, oldest first; empty where there is one block.
    const std::string& name(std::size_t block) const { return blocks_[block].name; }
    const Eigen::Vector3d& shift(std::size_t block) const { return blocks_[block].shift; }
    bool on_hanging_side(std::size_t block, std::size_t fault) const { return blocks_[block].hanging[fault]; }

    // The block that a point of today lies in.
    std::size_t at(const Eigen::Vector3d& point) const;

    // How far within a block a point of today lies, m: to the nearest fault that bounds it, below 0 outside. Infinity where there
    // is one block.
    struct Inside {
        double distance = 0.0;
        std::size_t fault = 0;                              // that is nearest
        Eigen::Vector3d normal = Eigen::Vector3d::UnitZ();  // its unit normal, into the block
    };
    Inside inside(std::size_t block, const Eigen::Vector3d& point) const;

    // The faults that bound a block as half-spaces of today: normals point out of the block.
    std::vector<base::Plane> bounds(std::size_t block) const;

    // A path's stretches between two depths, each within one block.
    struct Stretch {
        std::size_t block = 0;
        double from = 0.0, to = 0.0;  // m along the hole
    };
    std::vector<Stretch> stretches(const paths::Path& path, double from, double to) const;

private:
    struct Block {
        std::vector<bool> hanging;            // of each fault
        std::vector<Eigen::Vector3d> undone;  // before each fault is undone: today = there + this
        Eigen::Vector3d shift = Eigen::Vector3d::Zero();
        std::string name;
    };
    std::vector<Fault> faults_;
    std::vector<base::Plane> planes_;  // each as it was before the younger faults moved it
    std::vector<Block> blocks_;
};

}  // namespace selvage::faults
