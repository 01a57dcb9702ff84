#pragma once

#include "base/plane.h"
#include "faults/fault.h"
#include "mesh/triangle_mesh.h"
#include "paths/path.h"

#include <Eigen/Core>
#include <Eigen/Geometry>

#include <cstddef>
#include <string>
#include <vector>

namespace selvage::faults {

// A point before the faults moved it, and on which side of each it lay. Undone from the youngest on.
struct Restored {
    Eigen::Vector3d point = Eigen::Vector3d::Zero();
    std::vector<bool> hanging;  // of each fault
};
Restored restored(const std::vector<Fault>& oldest_first, const Eigen::Vector3d& point);

// The blocks into which faults cut some ground, and how each moved: a point today = the point before the faults + its block's
// shift. Blocks that hold nothing of the ground are none: a fault that stays away from it cuts nothing, and an older one ends
// where a younger one leaves nothing of it.
class Blocks {
public:
    Blocks();  // one block, nothing moved
    // `faults`: oldest first; `ground`: a box around everything that will be asked about.
    explicit Blocks(std::vector<Fault> faults, const Eigen::AlignedBox3d& ground = wide_ground());
    static Eigen::AlignedBox3d wide_ground();  // 100 km each way

    std::size_t count() const { return blocks_.size(); }
    bool is_cut() const { return count() > 1; }
    const std::vector<Fault>& faults() const { return faults_; }
    // "North Fault+ Cross Fault-": hanging-wall side + or foot-wall side - of those that part it from others, oldest first; empty
    // where there is one block.
    const std::string& name(std::size_t block) const { return blocks_[block].name; }
    const Eigen::Vector3d& shift(std::size_t block) const { return blocks_[block].moved.by; }
    bool on_hanging_side(std::size_t block, std::size_t fault) const { return blocks_[block].hanging[fault]; }

    // Whether a fault parts anything of the ground.
    bool is_parted_by(std::size_t fault) const;

    // The block that a point of today lies in.
    std::size_t at(const Eigen::Vector3d& point) const;

    // How far within a block a point of today lies, m: to the nearest fault that bounds it, below 0 outside. Infinity where there
    // is one block.
    struct Inside {
        double distance = 0.0;
        std::size_t fault = 0;                              // that is nearest
        Eigen::Vector3d normal = Eigen::Vector3d::UnitZ();  // its unit normal, into the block
        Shift moved;                                        // what younger faults did to it there
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
        std::vector<bool> hanging;           // of each fault
        std::vector<Shift> undone;           // before each fault is undone: today = there + this
        std::vector<std::size_t> parted_by;  // faults, oldest first
        Shift moved;
        std::string name;
    };
    // What a fault does to a part of the ground that the younger ones have left: it parts it, or it lies to one side of it.
    struct Parting {
        static constexpr std::size_t nothing = static_cast<std::size_t>(-1);
        std::size_t foot = nothing, hanging = nothing;  // the parting by the next older fault or, after the oldest, the block
    };
    std::size_t part(const mesh::TriangleMesh& ground, std::size_t younger, Block so_far);

    std::vector<Fault> faults_;
    std::vector<Block> blocks_;
    std::vector<Parting> partings_;
    std::size_t first_ = 0;  // of the youngest fault
};

}  // namespace selvage::faults
