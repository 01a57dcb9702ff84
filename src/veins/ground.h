#pragma once

#include "base/plane.h"
#include "tables/records.h"

#include <Eigen/Core>

#include <optional>
#include <vector>

namespace selvage::veins {

// What it rests on: collars of drill holes and trenches that start at the surface, no daughters, and outcrops.
std::vector<Eigen::Vector3d> ground_points(const tables::Records& records);

// The ground where nobody gave a topography: a plane through the collars of drill holes and trenches and the outcrops, normal up.
// Its slopes are held by a prior (each 0 +- 0.3, points +- 5 m about the plane), so that collars along one line make no cliff.
// Nothing without a single such point.
std::optional<base::Plane> ground_plane(const tables::Records& records);

}  // namespace selvage::veins
