#pragma once

#include "base/finding.h"

// What can be found wrong when models look at holes.
namespace selvage::forecast {

extern const base::Check no_crossing_ahead;
extern const base::Check pick_of_another_vein;

}  // namespace selvage::forecast
