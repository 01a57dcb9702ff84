#pragma once

#include <Eigen/Core>

#include <functional>
#include <vector>

// The border of a region of a plane, from a function that tells inside from outside.
namespace selvage::veins {

using SignedFunction = std::function<double(const Eigen::Vector2d&)>;  // 0 or more inside, below 0 outside
using Loop = std::vector<Eigen::Vector2d>;                             // closed; the first point is not repeated

// Borders of the region within a box, as loops with the inside on their left: contours on a lattice of `step`, each vertex moved
// onto the function's own zero. The region must not touch the box; parts narrower than `step` may be missed, and
// those of less than four of its squares are left out.
std::vector<Loop> zero_contours(const SignedFunction& inside, const Eigen::Vector2d& lower, const Eigen::Vector2d& upper,
                                double step);

// Area of a loop, positive where the inside lies on its left.
double signed_area(const Loop& loop);

}  // namespace selvage::veins
