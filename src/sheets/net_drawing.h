#pragma once

#include "sheets/marks.h"

#include <Eigen/Core>

#include <vector>

// An equal-area net of the lower hemisphere on paper, grid north up.
namespace selvage::sheets {

struct Net {
    Point centre;
    double radius = 100.0;  // mm

    Point paper(const Eigen::Vector3d& line) const;  // of either sign
};

// Rim, centre, bearings every 10 degrees with their figures every 30, and faint circles at plunges of 30 and 60 degrees.
Marks net_frame(const Net& net, const Tools& tools);
// White outside the rim, over what was drawn too far.
Mark net_mask(const Net& net, const Tools& tools);
// The lines at an angle from an axis, as pieces within the rim: 90 degrees is the plane square to it.
std::vector<std::vector<Point>> cone_on_net(const Net& net, const Eigen::Vector3d& axis, base::Angle angle);
// Rings in radii of the net, on paper.
std::vector<std::vector<Point>> on_net(const Net& net, const std::vector<std::vector<Point>>& rings);

}  // namespace selvage::sheets
