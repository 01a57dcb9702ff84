#include "orientation/net.h"

#include <cmath>

namespace selvage::orientation {

namespace {

Eigen::Vector3d downward(const Eigen::Vector3d& line) { return line.z() > 0.0 ? Eigen::Vector3d(-line) : line; }

}  // namespace

Eigen::Vector2d on_equal_area_net(const Eigen::Vector3d& line) {
    const Eigen::Vector3d down = downward(line);
    return down.head<2>() / std::sqrt(1.0 - down.z());
}

Eigen::Vector2d on_equal_angle_net(const Eigen::Vector3d& line) {
    const Eigen::Vector3d down = downward(line);
    return down.head<2>() / (1.0 - down.z());
}

}  // namespace selvage::orientation
