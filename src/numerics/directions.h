#pragma once

#include "base/angle.h"

#include <Eigen/Core>

#include <vector>

// Statistics of axes: unit vectors whose sign says nothing, as poles of planes.
namespace selvage::numerics {

// Fisher (1953) on axes, each flipped to the mean's side first. Weights are made to add to their number.
struct AxisMean {
    Eigen::Vector3d mean = Eigen::Vector3d::UnitZ();  // unit; up where it matters to nobody
    double resultant = 0.0;                           // R, of N
    double kappa = 0.0;                               // (N - 1)/(N - R): large for a tight set; 0 from one axis
    base::Angle cone95;  // within which the true mean lies: cos = 1 - (N - R)/R (20^(1/(N - 1)) - 1); 180 where not known
};
// Needs one axis or more; `weights` as many, or none for equal ones.
AxisMean axis_mean(const std::vector<Eigen::Vector3d>& axes, const std::vector<double>& weights = {});

// Eigenvalues of the orientation tensor, falling, adding to 1; their shape after Woodcock (1977): K = ln(S1/S2)/ln(S2/S3), over 1
// a cluster, under 1 a girdle; C = ln(S1/S3), the strength. Infinite where eigenvalues are equal or 0.
struct AxisShape {
    Eigen::Vector3d eigenvalues = Eigen::Vector3d::Zero();
    double k = 0.0, c = 0.0;
};
AxisShape axis_shape(const std::vector<Eigen::Vector3d>& axes);

// How many planes like one met at alpha to the hole were missed for it: 1/sin(alpha), held to that of 20 degrees (Terzaghi 1965;
// Brady & Brown, Rock Mechanics for Underground Mining, p. 76).
double terzaghi_weight(base::Angle alpha);

// Axes that lie together: the fullest cone of this half-angle is a set, then the fullest of what is left, each about its own
// mean, down to `least` axes. The number of each axis's set from 0, -1 for none. Ties go to the earlier axis.
std::vector<int> axis_sets(const std::vector<Eigen::Vector3d>& axes, base::Angle half_angle, std::size_t least);

}  // namespace selvage::numerics
