#pragma once

#include "checks/holes.h"
#include "tables/records.h"

namespace selvage::checks {

// Survey stations that a hole cannot have. Set aside are magnetic azimuths where the field was disturbed (its strength is told,
// or the station stands in steel casing) and azimuths that leave the line of both neighbours, the dip of such a station being
// kept; left out are stations whose dip does so.
void settle_stations(tables::Records& records, const Holes& holes, Checking& checking);

// Doubts that are only told: sharp bends, no station at the collar, a long end without one, starts against the plan, signs of
// dips, the north of azimuths.
void check_stations(const tables::Records& records, const Holes& holes, Checking& checking);

}  // namespace selvage::checks
