#pragma once

#include "base/plane.h"

#include <Eigen/Core>

#include <optional>
#include <string>
#include <vector>

namespace selvage::veins {

struct PlanePoint {
    Eigen::Vector3d position = Eigen::Vector3d::Zero();
    double sd = 0.0;  // m along the plane's normal; above 4 it takes that figure's place
};
struct PlaneNormal {
    Eigen::Vector3d normal = Eigen::Vector3d::UnitZ();  // unit, sign free
    double sd = 0.0;                                    // radians; above 10 degrees it takes that figure's place
};

// Robust base plane through mid-points and normals: Huber cost, Gauss-Newton on two tilts and an offset from several starts.
// Nothing where the data cannot tell an attitude (one fence or fewer than 3 points, and no normals).
std::optional<base::Plane> base_plane(const std::vector<PlanePoint>& points, const std::vector<PlaneNormal>& normals);

// Hole spacing s (declustered), m: points (u, v) of core and percussion holes that meet or miss the vein. Fewer than 3 left after
// declustering: `otherwise`.
double hole_spacing(std::vector<Eigen::Vector2d> points, double otherwise);

}  // namespace selvage::veins
