#pragma once

#include "paths/path.h"

#include <Eigen/Core>

namespace selvage::veins {

// Covariance of the point where a hole pierces a vein, m2 (east, north, up): the path's own errors slid along the hole onto the
// vein, and the vein's along the hole. First order, the two taken as independent.
//   depth     m, of the crossing
//   normal    unit normal of the vein there, of either sign
//   depth_sd  m, of the crossing's depth, all errors together
Eigen::Matrix3d pierce_covariance(const paths::Path& path, double depth, const Eigen::Vector3d& normal, double depth_sd);

}  // namespace selvage::veins
