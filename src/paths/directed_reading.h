#pragma once

#include "base/angle.h"
#include "paths/survey_choice.h"

#include <cstddef>
#include <vector>

namespace selvage::paths {

// A reading with its azimuth, its own or its neighbours'.
struct DirectedReading {
    double depth = 0.0;  // m
    base::Direction direction;
    std::size_t azimuth_run = 0, dip_run = 0;  // which of HoleSurveys::runs they are of
    double azimuth_from = 0.0;                 // how far the nearest reading is that measured it, m; 0 where this one did
};

// Azimuths that are lacking are interpolated by depth, the shorter way round, between the nearest neighbours that have one; above
// the first and below the last of these they are the nearest one's. At least one reading must have an azimuth.
std::vector<DirectedReading> directed(const std::vector<Reading>& readings);

// All with one azimuth, which nobody measured.
std::vector<DirectedReading> directed(const std::vector<Reading>& readings, base::Azimuth azimuth);

}  // namespace selvage::paths
