#pragma once

#include "base/finding.h"

// What can be found wrong with structures while they are placed.
namespace selvage::orientation {

extern const base::Check beta_refused;
extern const base::Check beta_near_vertical;
extern const base::Check core_angles_differ;
extern const base::Check structure_above_kickoff;
extern const base::Check core_run_turned;

}  // namespace selvage::orientation
