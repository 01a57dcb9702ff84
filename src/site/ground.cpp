#include "site/ground.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace selvage::site {

namespace {

double elevation_of(const base::Plane& plane, const Eigen::Vector2d& place) {
    const Eigen::Vector2d off = place - plane.point.head<2>();
    return plane.point.z() - (plane.normal.x() * off.x() + plane.normal.y() * off.y()) / plane.normal.z();
}

// Slope of a relief along one axis, from neighbours a quarter of its spacing away, where they have data.
double slope_along(const Relief& relief, const Eigen::Vector2d& place, double here, const Eigen::Vector2d& step) {
    const auto before = elevation_at(relief, place - step), after = elevation_at(relief, place + step);
    const double run = step.norm();
    if (before && after) return (*after - *before) / (2.0 * run);
    if (after) return (*after - here) / run;
    return before ? (here - *before) / run : 0.0;
}

// Where a function of the distance changes sign between two distances at which it has different ones.
template <typename Height>
double change_of_sign(const Height& height, double low, double high, bool low_is_under) {
    constexpr int halvings = 40;
    for (int i = 0; i < halvings; ++i) {
        const double middle = (low + high) / 2.0;
        const std::optional<double> here = height(middle);
        (here && (*here < 0.0) == low_is_under ? low : high) = middle;
    }
    return (low + high) / 2.0;
}

}  // namespace

Ground::Ground(std::optional<base::Plane> assumed, std::shared_ptr<const Relief> given)
    : assumed_(std::move(assumed)), given_(std::move(given)) {}

bool Ground::is_given_at(const Eigen::Vector2d& place) const {
    return given_ != nullptr && site::elevation_at(*given_, place).has_value();
}

std::optional<double> Ground::elevation_at(const Eigen::Vector2d& place) const {
    if (given_ != nullptr)
        if (const auto measured = site::elevation_at(*given_, place)) return measured;
    return assumed_ ? std::optional<double>(elevation_of(*assumed_, place)) : std::nullopt;
}

std::optional<base::Plane> Ground::plane_at(const Eigen::Vector2d& place) const {
    if (given_ == nullptr) return assumed_;
    const auto here = site::elevation_at(*given_, place);
    if (!here) return assumed_;
    const double step = spacing_of(*given_) / 4.0;
    const double east = slope_along(*given_, place, *here, {step, 0.0});
    const double north = slope_along(*given_, place, *here, {0.0, step});
    return base::Plane{{place.x(), place.y(), *here}, Eigen::Vector3d(-east, -north, 1.0).normalized()};
}

std::optional<double> Ground::height_of(const Eigen::Vector3d& point) const {
    const std::optional<base::Plane> plane = plane_at(point.head<2>());
    return plane ? std::optional<double>(base::signed_distance(*plane, point)) : std::nullopt;
}

std::optional<double> Ground::distance_along(const Eigen::Vector3d& from, const Eigen::Vector3d& direction, double reach) const {
    constexpr double least_rise = 1e-6;
    if (given_ == nullptr) {
        if (!assumed_) return std::nullopt;
        const double rise = assumed_->normal.dot(direction);
        if (std::abs(rise) <= least_rise) return std::nullopt;
        const double distance = -base::signed_distance(*assumed_, from) / rise;
        return distance > 0.0 && distance <= reach ? std::optional<double>(distance) : std::nullopt;
    }
    const auto height = [&](double along) -> std::optional<double> {
        const Eigen::Vector3d point = from + along * direction;
        const std::optional<double> ground = elevation_at(point.head<2>());
        return ground ? std::optional<double>(point.z() - *ground) : std::nullopt;
    };
    const double level = direction.head<2>().norm();
    const double step = std::min(reach, spacing_of(*given_) / 2.0 / std::max(level, 1e-9));
    std::optional<double> before = height(0.0);
    for (double along = 0.0; along < reach;) {
        const double next = std::min(along + step, reach);
        const std::optional<double> here = height(next);
        if (before && here && (*before < 0.0) != (*here < 0.0)) return change_of_sign(height, along, next, *before < 0.0);
        before = here;
        along = next;
    }
    return std::nullopt;
}

}  // namespace selvage::site
