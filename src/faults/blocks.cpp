#include "faults/blocks.h"

#include "mesh/cut.h"

#include <algorithm>
#include <limits>
#include <utility>

namespace selvage::faults {

namespace {

constexpr double step = 5.0;         // m along a path: pieces that lie within one step of another fault's are found by halving
constexpr double precision = 1e-6;   // m along a path
constexpr double least_block = 1.0;  // m3 of the ground

}  // namespace

Restored restored(const std::vector<Fault>& oldest_first, const Eigen::Vector3d& point) {
    Restored before{point, std::vector<bool>(oldest_first.size(), false)};
    for (std::size_t f = oldest_first.size(); f-- > 0;) {
        before.hanging[f] = base::signed_distance(oldest_first[f].plane, before.point) >= 0.0;
        if (before.hanging[f]) before.point -= oldest_first[f].slip;
    }
    return before;
}

Eigen::AlignedBox3d Blocks::wide_ground() {
    constexpr double half = 50000.0;  // m
    return {Eigen::Vector3d::Constant(-half), Eigen::Vector3d::Constant(half)};
}

Blocks::Blocks() : Blocks(std::vector<Fault>{}) {}

Blocks::Blocks(std::vector<Fault> faults, const Eigen::AlignedBox3d& ground) : faults_(std::move(faults)) {
    Block whole;
    whole.hanging.assign(faults_.size(), false);
    whole.undone.resize(faults_.size());
    first_ = part(mesh::box(ground.min(), ground.max()), faults_.size(), std::move(whole));
}

// The partings of a part of the ground by the faults older than those already looked at; the number of the first.
std::size_t Blocks::part(const mesh::TriangleMesh& ground, std::size_t younger, Block so_far) {
    if (younger == 0) {
        std::reverse(so_far.parted_by.begin(), so_far.parted_by.end());
        for (const std::size_t f : so_far.parted_by)
            so_far.name += (so_far.name.empty() ? "" : " ") + faults_[f].name + (so_far.hanging[f] ? "+" : "-");
        blocks_.push_back(std::move(so_far));
        return blocks_.size() - 1;
    }
    const std::size_t f = younger - 1;
    so_far.undone[f] = so_far.moved;
    const base::Plane today{faults_[f].plane.point + so_far.moved.by, faults_[f].plane.normal};
    const mesh::Outcome<mesh::CutSolid> cut = mesh::cut_by_plane(ground, today, 0);
    const bool has_hanging = !cut || mesh::volume(cut->inside) > least_block;
    const bool has_foot = !cut || !has_hanging || mesh::volume(cut->outside) > least_block;
    if (has_hanging && has_foot) so_far.parted_by.push_back(f);
    const std::size_t number = partings_.size();
    partings_.emplace_back();
    if (has_foot) {
        const std::size_t next = part(cut ? cut->outside : ground, f, so_far);
        partings_[number].foot = next;
    }
    if (has_hanging) {
        so_far.hanging[f] = true;
        so_far.moved.add(faults_[f]);
        const std::size_t next = part(cut ? cut->inside : ground, f, std::move(so_far));
        partings_[number].hanging = next;
    }
    return number;
}

bool Blocks::is_parted_by(std::size_t fault) const {
    return std::any_of(blocks_.begin(), blocks_.end(), [&](const Block& block) {
        return std::find(block.parted_by.begin(), block.parted_by.end(), fault) != block.parted_by.end();
    });
}

std::size_t Blocks::at(const Eigen::Vector3d& point) const {
    Eigen::Vector3d before = point;
    std::size_t number = first_;
    for (std::size_t f = faults_.size(); f-- > 0;) {
        const Parting& parting = partings_[number];
        const bool parts = parting.foot != Parting::nothing && parting.hanging != Parting::nothing;
        const bool hanging = parts ? base::signed_distance(faults_[f].plane, before) >= 0.0 : parting.foot == Parting::nothing;
        if (hanging) before -= faults_[f].slip;
        number = hanging ? parting.hanging : parting.foot;
    }
    return number;
}

Blocks::Inside Blocks::inside(std::size_t block, const Eigen::Vector3d& point) const {
    const Block& one = blocks_[block];
    Inside nearest;
    nearest.distance = std::numeric_limits<double>::infinity();
    for (const std::size_t f : one.parted_by) {
        const double side = one.hanging[f] ? 1.0 : -1.0;
        const double distance = side * base::signed_distance(faults_[f].plane, point - one.undone[f].by);
        if (distance < nearest.distance) nearest = {distance, f, side * faults_[f].plane.normal, one.undone[f]};
    }
    return nearest;
}

std::vector<base::Plane> Blocks::bounds(std::size_t block) const {
    const Block& one = blocks_[block];
    std::vector<base::Plane> planes;
    for (const std::size_t f : one.parted_by)
        planes.push_back({faults_[f].plane.point + one.undone[f].by, (one.hanging[f] ? -1.0 : 1.0) * faults_[f].plane.normal});
    return planes;
}

std::vector<Blocks::Stretch> Blocks::stretches(const paths::Path& path, double from, double to) const {
    if (!is_cut()) return {{0, from, to}};
    const auto block_at = [&](double depth) { return at(paths::position_at(path, depth)); };
    std::vector<Stretch> found{{block_at(from), from, to}};
    for (double depth = from; depth < to;) {
        double next = std::min(to, depth + step);
        if (block_at(next) == found.back().block) {
            depth = next;
            continue;
        }
        double low = depth;
        while (next - low > precision) {
            const double middle = (low + next) / 2.0;
            (block_at(middle) == found.back().block ? low : next) = middle;
        }
        found.back().to = next;
        found.push_back({block_at(next), next, to});
        depth = next;
    }
    return found;
}

}  // namespace selvage::faults
