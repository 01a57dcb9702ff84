#include "veins/bumps.h"

#include "numerics/median.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <limits>
#include <utility>

namespace selvage::veins {

namespace {

constexpr std::size_t most_levels = 8;
constexpr double smallest_radius = 1e-3;  // m: two contacts at one place
constexpr double same_distance_factor = 1.01;

double bump(double r) {
    if (r >= 1.0) return 0.0;
    const double left = 1.0 - r, squared = left * left;
    return squared * squared * (4.0 * r + 1.0);
}

// Bumps of one radius, or of a radius each, at these places, as seen at other places.
template <typename Radius>
Eigen::MatrixXd bumps_between(const std::vector<Eigen::Vector2d>& other, const std::vector<Eigen::Vector2d>& places,
                              Radius radius) {
    Eigen::MatrixXd matrix(static_cast<Eigen::Index>(other.size()), static_cast<Eigen::Index>(places.size()));
    for (std::size_t j = 0; j < places.size(); ++j) {
        for (std::size_t i = 0; i < other.size(); ++i) {
            matrix(static_cast<Eigen::Index>(i), static_cast<Eigen::Index>(j)) = bump((other[i] - places[j]).norm() / radius(j));
        }
    }
    return matrix;
}

}  // namespace

double sum_of(const std::vector<Bump>& bumps, const Eigen::Vector2d& place) {
    double sum = 0.0;
    for (const Bump& one : bumps) {
        const double squared = (place - one.place).squaredNorm();
        if (squared < one.radius * one.radius) sum += one.height * bump(std::sqrt(squared) / one.radius);
    }
    return sum;
}

BumpLayout::BumpLayout(std::vector<Eigen::Vector2d> places, double lone_radius) : places_(std::move(places)) {
    const std::size_t count = places_.size();
    own_radius_.assign(count, std::numeric_limits<double>::infinity());
    for (std::size_t i = 0; i < count; ++i) {
        for (std::size_t j = 0; j < count; ++j) {
            if (i != j) own_radius_[i] = std::min(own_radius_[i], (places_[i] - places_[j]).norm());
        }
        own_radius_[i] = std::isfinite(own_radius_[i]) ? std::max(own_radius_[i], smallest_radius) : lone_radius;
    }
    add_levels();
}

void BumpLayout::add_levels() {
    if (places_.size() < 2) return;
    double radius = 1.5 * numerics::median(own_radius_);
    const double least = *std::min_element(own_radius_.begin(), own_radius_.end());
    const auto count = static_cast<Eigen::Index>(places_.size());
    while (radius > same_distance_factor * least && levels_.size() < most_levels) {
        Eigen::MatrixXd matrix = bumps_between(places_, places_, [radius](std::size_t) { return radius; });
        matrix += Eigen::MatrixXd::Identity(count, count);
        levels_.push_back({radius, Eigen::LLT<Eigen::MatrixXd>(matrix)});
        radius /= 2.0;
    }
}

// With F the bumps among the places, a level's heights are (F + I)^-1 e, and what it leaves is e - F (F + I)^-1 e: the same.
std::vector<Bump> BumpLayout::bumps_for(const Eigen::VectorXd& residuals) const {
    std::vector<Bump> bumps;
    Eigen::VectorXd left = residuals;
    const auto add = [&](auto radius) {
        for (std::size_t i = 0; i < places_.size(); ++i) {
            bumps.push_back({places_[i], radius(i), left[static_cast<Eigen::Index>(i)]});
        }
    };
    for (const Level& level : levels_) {
        left = level.bumps_and_noise.solve(left);
        add([&level](std::size_t) { return level.radius; });
    }
    add([this](std::size_t i) { return own_radius_[i]; });
    return bumps;
}

Eigen::MatrixXd BumpLayout::response_at(const std::vector<Eigen::Vector2d>& other) const {
    const auto count = static_cast<Eigen::Index>(places_.size());
    Eigen::MatrixXd left = Eigen::MatrixXd::Identity(count, count);
    Eigen::MatrixXd response = Eigen::MatrixXd::Zero(static_cast<Eigen::Index>(other.size()), count);
    for (const Level& level : levels_) {
        left = level.bumps_and_noise.solve(left);
        response += bumps_between(other, places_, [&level](std::size_t) { return level.radius; }) * left;
    }
    response += bumps_between(other, places_, [this](std::size_t i) { return own_radius_[i]; }) * left;
    return response;
}

}  // namespace selvage::veins
