#pragma once

#include "base/plane.h"
#include "site/relief.h"
#include "tables/records.h"

#include <Eigen/Core>

#include <memory>
#include <optional>
#include <vector>

namespace selvage::site {

// The ground that every stage asks. Where somebody gave a topography and it has data, that; elsewhere assumed: a plane. Points
// are east, north, up relative to the project origin, m.
class Ground {
public:
    Ground() = default;  // nothing is known of it
    explicit Ground(std::optional<base::Plane> assumed, std::shared_ptr<const Relief> given = nullptr);
    Ground(const base::Plane& assumed) : assumed_(assumed) {}

    bool is_known() const { return assumed_ || given_ != nullptr; }

    bool has_given() const { return given_ != nullptr; }
    bool is_given_at(const Eigen::Vector2d& place) const;
    // Nothing where neither topography nor plane is there.
    std::optional<double> elevation_at(const Eigen::Vector2d& place) const;
    // The plane that touches the ground over or under a place, normal up; where it is assumed, that plane itself.
    std::optional<base::Plane> plane_at(const Eigen::Vector2d& place) const;
    // Distance of a point from that plane, positive over the ground, m.
    std::optional<double> height_of(const Eigen::Vector3d& point) const;
    // Distance from a point along a unit direction to where it first comes through the ground, m; nothing within `reach`.
    std::optional<double> distance_along(const Eigen::Vector3d& from, const Eigen::Vector3d& direction, double reach) const;

    const std::optional<base::Plane>& assumed() const { return assumed_; }
    const Relief* given() const { return given_.get(); }

private:
    std::optional<base::Plane> assumed_;
    std::shared_ptr<const Relief> given_;
};

// What the assumed plane rests on: collars of drill holes and trenches that start at the surface, no daughters, and outcrops.
std::vector<Eigen::Vector3d> ground_points(const tables::Records& records);

// The ground where nobody gave a topography: a plane through those points, normal up. Its slopes are held by a prior (each
// 0 +- 0.3, points +- 5 m about the plane), so that collars along one line make no cliff. Nothing without a single such point.
std::optional<base::Plane> ground_plane(const tables::Records& records);

}  // namespace selvage::site
