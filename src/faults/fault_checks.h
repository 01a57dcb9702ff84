#pragma once

#include "base/finding.h"

// What this room can find.
namespace selvage::faults {

extern const base::Check fault_attitude_unknown, slip_off_the_plane, slip_not_given, slip_against_data, event_without_order,
    fault_off_its_plane, fault_cuts_nothing, slip_out_of_reach;

}  // namespace selvage::faults
