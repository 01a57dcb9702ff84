#pragma once

#include "faults/fault.h"

#include <string>

namespace selvage::faults {

// A fault through a point; what leaves its plane of the slip is dropped.
inline Fault made_fault(const std::string& name, const Eigen::Vector3d& point, const Eigen::Vector3d& normal,
                        const Eigen::Vector3d& slip, double slip_sd = 0.0) {
    Fault one;
    one.name = name;
    one.plane = {point, normal.normalized()};
    one.slip = slip - one.plane.normal * one.plane.normal.dot(slip);
    one.slip_sd = slip_sd;
    return one;
}

}  // namespace selvage::faults
