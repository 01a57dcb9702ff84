#pragma once

#include "base/finding.h"

// What can be wrong with a pick once the holes are in their place.
namespace selvage::intercepts {

extern const base::Check vein_met_twice, pick_of_unplaced_hole, pick_above_kickoff, pick_of_unknown_vein;

}  // namespace selvage::intercepts
