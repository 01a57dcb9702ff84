#pragma once

#include "base/finding.h"

// What this room can find.
namespace selvage::veins {

extern const base::Check vein_without_data, vein_attitude_unknown, vein_turns, attitude_disagrees, contacts_turned_over,
    contacts_disagree, doubtful_intercept, prior_only, outcrops_over_half, solid_left_out, solid_left_uncut, vein_out_of_ground,
    met_near_fault, splay_without_end;

}  // namespace selvage::veins
