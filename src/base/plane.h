#pragma once

#include <Eigen/Core>

#include <vector>

namespace selvage::base {

// A plane in space. Points in metres, east, north, up, relative to the project origin; the normal has length 1.
struct Plane {
    Eigen::Vector3d point = Eigen::Vector3d::Zero();
    Eigen::Vector3d normal = Eigen::Vector3d::UnitZ();
};

// Distance of a point from the plane, positive on the side that the normal points to, m.
inline double signed_distance(const Plane& plane, const Eigen::Vector3d& point) { return plane.normal.dot(point - plane.point); }

// The part of a convex polygon, its corners in order, on the side that the plane's normal points away from; fewer than three
// corners where nothing is left.
std::vector<Eigen::Vector3d> polygon_below(const std::vector<Eigen::Vector3d>& corners, const Plane& plane);

}  // namespace selvage::base
