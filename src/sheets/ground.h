#pragma once

#include "base/plane.h"
#include "tables/records.h"

#include <Eigen/Core>

namespace selvage::sheets {

// The ground where no topography is given: a plane through collars and outcrops. Said so on every sheet that draws it.
struct Ground {
    base::Plane plane;  // normal up
    // Relative elevation of the ground under or over a place, m.
    double elevation_at(const Eigen::Vector3d& place) const;
};

// The plane by which the veins end at the ground (veins::ground_plane); level through the project origin where there is none.
Ground ground_of(const tables::Records& records);

}  // namespace selvage::sheets
