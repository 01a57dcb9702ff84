#pragma once

#include <algorithm>

namespace selvage::base {

// From a point to the nearest place of a segment, in two dimensions or three. Ends that are one place are a point.
template <typename Vector>
double distance_to_segment(const Vector& point, const Vector& from, const Vector& to) {
    const Vector run = to - from;
    const double length_squared = run.squaredNorm();
    const double share = length_squared > 0.0 ? std::clamp((point - from).dot(run) / length_squared, 0.0, 1.0) : 0.0;
    return (point - from - share * run).norm();
}

}  // namespace selvage::base
