#pragma once

#include "base/angle.h"

#include <Eigen/Core>

// Directions for tests, by their angles in degrees.
namespace selvage::test {

// Unit vector of a line with that trend that plunges so far below the horizontal.
inline Eigen::Vector3d line(double trend_degrees, double plunge_degrees) {
    return base::unit_vector({base::Azimuth::degrees(trend_degrees), base::Dip::degrees(plunge_degrees)});
}

// Unit normal, upward, of a plane of that dip and dip direction.
inline Eigen::Vector3d pole(double dip_degrees, double dip_direction_degrees) {
    return base::upward_normal({base::Angle::degrees(dip_degrees), base::Azimuth::degrees(dip_direction_degrees)});
}

}  // namespace selvage::test
