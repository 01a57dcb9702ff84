#include "base/plane.h"

namespace selvage::base {

std::vector<Eigen::Vector3d> polygon_below(const std::vector<Eigen::Vector3d>& corners, const Plane& plane) {
    std::vector<Eigen::Vector3d> kept;
    for (std::size_t i = 0; i < corners.size(); ++i) {
        const Eigen::Vector3d &a = corners[i], &b = corners[(i + 1) % corners.size()];
        const double over_a = signed_distance(plane, a), over_b = signed_distance(plane, b);
        if (over_a <= 0.0) kept.push_back(a);
        if ((over_a < 0.0 && over_b > 0.0) || (over_a > 0.0 && over_b < 0.0))
            kept.push_back(a + over_a / (over_a - over_b) * (b - a));
    }
    return kept;
}

}  // namespace selvage::base
