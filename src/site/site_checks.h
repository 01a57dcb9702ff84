#pragma once

#include "base/finding.h"

// What this room can find. Private to it.
namespace selvage::site {

extern const base::Check source_unusable, source_empty, crs_carried_over, crs_doubtful, topography_elsewhere,
    topography_too_small, topography_has_holes, topography_off_collars, off_the_ground, pick_above_ground, ring_crosses_itself,
    property_without_holes, outside_property, workings_depth_unknown, workings_open, near_old_workings;

}  // namespace selvage::site
