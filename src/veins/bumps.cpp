#include "veins/bumps.h"

#include "numerics/median.h"

#include <algorithm>
#include <cstddef>
#include <limits>
#include <utility>

namespace selvage::veins {

namespace {

constexpr std::size_t most_levels = 8;
constexpr double smallest_radius = 1e-3;  // m: two contacts at one place
constexpr double same_distance_factor = 1.01;

using Sparse = Eigen::SparseMatrix<double>;

// Bumps of a radius each at these places, as seen from other places.
Sparse bumps_between(const std::vector<Eigen::Vector2d>& other, const std::vector<Eigen::Vector2d>& places,
                     const std::vector<double>& radii) {
    const double widest = radii.empty() ? 1.0 : *std::max_element(radii.begin(), radii.end());
    const SquareGrid grid(places, widest);
    std::vector<Eigen::Triplet<double>> felt;
    for (std::size_t i = 0; i < other.size(); ++i) {
        grid.near(other[i], [&](std::size_t j) {
            const double height = bump_shape((other[i] - places[j]).norm(), radii[j]);
            if (height > 0.0) felt.emplace_back(static_cast<int>(i), static_cast<int>(j), height);
        });
    }
    Sparse matrix(static_cast<Eigen::Index>(other.size()), static_cast<Eigen::Index>(places.size()));
    matrix.setFromTriplets(felt.begin(), felt.end());
    return matrix;
}

}  // namespace

Eigen::VectorXd sum_seen(const BumpsSeen& seen, const BumpHeights& heights) {
    Eigen::VectorXd sum = seen.front() * heights.front();
    for (std::size_t level = 1; level < seen.size(); ++level) sum += seen[level] * heights[level];
    return sum;
}

BumpLayout::BumpLayout(std::vector<Eigen::Vector2d> places, double lone_radius) : places_(std::move(places)) {
    const std::size_t count = places_.size();
    own_radius_.assign(count, std::numeric_limits<double>::infinity());
    for (std::size_t i = 0; i < count; ++i) {
        for (std::size_t j = 0; j < count; ++j) {
            if (i != j) own_radius_[i] = std::min(own_radius_[i], (places_[i] - places_[j]).norm());
        }
        own_radius_[i] = count > 1 ? std::max(own_radius_[i], smallest_radius) : lone_radius;
    }
    add_levels();
}

void BumpLayout::add_levels() {
    if (places_.size() < 2) return;
    double radius = 1.5 * numerics::median(own_radius_);
    const double least = *std::min_element(own_radius_.begin(), own_radius_.end());
    const auto count = static_cast<Eigen::Index>(places_.size());
    Sparse noise(count, count);
    noise.setIdentity();
    while (radius > same_distance_factor * least && levels_.size() < most_levels) {
        const Sparse bumps = bumps_between(places_, places_, std::vector<double>(places_.size(), radius));
        levels_.push_back({radius, std::make_unique<Eigen::SimplicialLLT<Sparse>>(bumps + noise)});
        radius /= 2.0;
    }
}

// With F the bumps among the places, a level's heights are (F + I)^-1 e, and what it leaves is e - F (F + I)^-1 e: the same.
BumpHeights BumpLayout::heights_for(const Eigen::VectorXd& residuals) const {
    BumpHeights heights;
    for (const Level& level : levels_)
        heights.emplace_back(level.bumps_and_noise->solve(heights.empty() ? residuals : heights.back()));
    heights.push_back(heights.empty() ? residuals : heights.back());
    return heights;
}

std::vector<Bump> BumpLayout::bumps_of(const BumpHeights& heights) const {
    std::vector<Bump> bumps;
    for (std::size_t level = 0; level < heights.size(); ++level) {
        for (std::size_t i = 0; i < places_.size(); ++i) {
            const double radius = level < levels_.size() ? levels_[level].radius : own_radius_[i];
            bumps.push_back({places_[i], radius, heights[level][static_cast<Eigen::Index>(i)]});
        }
    }
    return bumps;
}

BumpsSeen BumpLayout::seen_from(const std::vector<Eigen::Vector2d>& other) const {
    BumpsSeen seen;
    for (const Level& level : levels_)
        seen.push_back(bumps_between(other, places_, std::vector<double>(places_.size(), level.radius)));
    seen.push_back(bumps_between(other, places_, own_radius_));
    return seen;
}

}  // namespace selvage::veins
