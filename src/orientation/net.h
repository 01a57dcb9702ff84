#pragma once

#include <Eigen/Core>

// Lines as points of a net: the lower hemisphere laid on a disc of radius 1, east to the right, north up.
namespace selvage::orientation {

// Place of a line (east, north, up; unit, of either sign) on the equal-area net: sqrt(2) sin(c/2) from the middle, c the angle
// from straight down (Lambert 1772).
Eigen::Vector2d on_equal_area_net(const Eigen::Vector3d& line);
// On the equal-angle net: tan(c/2) from the middle.
Eigen::Vector2d on_equal_angle_net(const Eigen::Vector3d& line);

}  // namespace selvage::orientation
