#pragma once

#include "planning/near_holes.h"
#include "sheets/off_target.h"
#include "site/openings.h"

#include <map>
#include <string>
#include <vector>

namespace selvage::sheets {

// What many sheets tell of planned and active holes and of voids, worked out once for a pack.
struct HolesAhead {
    std::map<std::string, planning::NearHoles> near;  // by hole: near_ahead
    std::vector<OffTarget> targets;                   // targets_to_show
    site::Openings openings;                          // known_openings
};
HolesAhead holes_ahead(const Results& results);

}  // namespace selvage::sheets
