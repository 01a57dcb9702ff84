#pragma once

#include "base/plane.h"

#include <Eigen/Core>

#include <optional>
#include <vector>

namespace selvage::faults {

constexpr double waves_sd = 2.0;  // m, of a fault about its plane

// A place where a fault was seen, and how well that is known.
struct PlaneDatum {
    Eigen::Vector3d point = Eigen::Vector3d::Zero();
    Eigen::Matrix3d covariance = Eigen::Matrix3d::Zero();  // m2
};
struct PoleDatum {
    Eigen::Vector3d pole = Eigen::Vector3d::UnitZ();  // unit, of either sign
    double sd = 0.0;                                  // radians
};

struct PlaneFit {
    base::Plane plane;  // its point amid the data, its normal up
    Eigen::Vector3d first_axis, second_axis;
    Eigen::Matrix3d covariance;  // of offset (m) and tilts towards the two axes (radians)
};

// An offset and two tilts, each pole a datum of both tilts, each place of its distance from the plane; least squares, but for
// places beyond 1.5 of their sds, which count less (Huber 1964), so that one wrong pick does not carry the plane away. Nothing
// where the data cannot tell an attitude: without a pole, fewer than three places, or all within 5 m of a line.
std::optional<PlaneFit> fit_fault_plane(const std::vector<PlaneDatum>& places, const std::vector<PoleDatum>& poles);

}  // namespace selvage::faults
