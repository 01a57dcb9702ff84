#pragma once

#include "planning/near_holes.h"
#include "planning/reach.h"

#include <vector>

namespace selvage::planning {

// The hole as a path, of nobody's family.
paths::Path straight_path(const Reach& hole);

// The holes that a straight hole passes nearer than a distance, m.
NearHoles holes_passed(const Reach& hole, double within, const std::vector<paths::Path>& paths);

}  // namespace selvage::planning
