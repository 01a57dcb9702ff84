#include "faults/blocks.h"

#include <algorithm>
#include <cassert>
#include <limits>
#include <utility>

namespace selvage::faults {

namespace {

constexpr double step = 5.0;        // m along a path: pieces that lie within one step of another fault's are found by halving
constexpr double precision = 1e-6;  // m along a path
constexpr std::size_t most_faults = 12;

}  // namespace

Blocks::Blocks() : Blocks(std::vector<Fault>{}) {}

Blocks::Blocks(std::vector<Fault> faults) : faults_(std::move(faults)) {
    assert(faults_.size() <= most_faults);
    planes_.resize(faults_.size());
    for (std::size_t f = faults_.size(); f-- > 0;) {
        planes_[f] = faults_[f].plane;
        for (std::size_t younger = faults_.size(); younger-- > f + 1;)
            if (base::signed_distance(planes_[younger], planes_[f].point) >= 0.0) planes_[f].point -= faults_[younger].slip;
    }
    for (std::size_t number = 0; number < (std::size_t{1} << faults_.size()); ++number) {
        Block block;
        block.undone.resize(faults_.size());
        for (std::size_t f = 0; f < faults_.size(); ++f) {
            block.hanging.push_back((number >> f & 1U) != 0);
            block.name += (f == 0 ? "" : " ") + faults_[f].name + (block.hanging[f] ? "+" : "-");
        }
        for (std::size_t f = faults_.size(); f-- > 0;) {
            block.undone[f] = block.shift;
            if (block.hanging[f]) block.shift += faults_[f].slip;
        }
        blocks_.push_back(std::move(block));
    }
}

std::size_t Blocks::at(const Eigen::Vector3d& point) const {
    Eigen::Vector3d before = point;
    std::size_t number = 0;
    for (std::size_t f = faults_.size(); f-- > 0;) {
        if (base::signed_distance(planes_[f], before) < 0.0) continue;
        number |= std::size_t{1} << f;
        before -= faults_[f].slip;
    }
    return number;
}

Blocks::Inside Blocks::inside(std::size_t block, const Eigen::Vector3d& point) const {
    Inside nearest;
    nearest.distance = std::numeric_limits<double>::infinity();
    for (std::size_t f = 0; f < faults_.size(); ++f) {
        const double side = blocks_[block].hanging[f] ? 1.0 : -1.0;
        const double distance = side * base::signed_distance(planes_[f], point - blocks_[block].undone[f]);
        if (distance < nearest.distance) nearest = {distance, f, side * planes_[f].normal};
    }
    return nearest;
}

std::vector<base::Plane> Blocks::bounds(std::size_t block) const {
    std::vector<base::Plane> planes;
    for (std::size_t f = 0; f < faults_.size(); ++f) {
        const double out = blocks_[block].hanging[f] ? -1.0 : 1.0;
        planes.push_back({planes_[f].point + blocks_[block].undone[f], out * planes_[f].normal});
    }
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
