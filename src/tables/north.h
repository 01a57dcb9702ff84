#pragma once

#include "base/angle.h"
#include "settings/project.h"

#include <optional>

namespace selvage::tables {

// A measured azimuth as a grid azimuth: grid = magnetic + declination - convergence, true = grid + convergence.
//   measured     degrees clockwise from the north of `reference`
//   declination  bearing of magnetic north from true north, east positive; only asked of magnetic azimuths
//   convergence  bearing of grid north clockwise from true north
// Nothing for a magnetic azimuth without declination.
std::optional<base::Azimuth> grid_azimuth(double measured, settings::NorthReference reference,
                                          const std::optional<base::Angle>& declination, base::Angle convergence);

}  // namespace selvage::tables
