#pragma once

#include <Eigen/Core>

namespace selvage::base {

// A plane in space. Points in metres, east, north, up, relative to the project origin; the normal has length 1.
struct Plane {
    Eigen::Vector3d point = Eigen::Vector3d::Zero();
    Eigen::Vector3d normal = Eigen::Vector3d::UnitZ();
};

// Distance of a point from the plane, positive on the side that the normal points to, m.
inline double signed_distance(const Plane& plane, const Eigen::Vector3d& point) { return plane.normal.dot(point - plane.point); }

}  // namespace selvage::base
