#pragma once

#include "paths/path.h"
#include "planning/near_holes.h"
#include "tables/records.h"

#include <vector>

namespace selvage::planning {

// Holes that are in the ground but in no model: an error in their rows leaves them out, or nothing gives them a direction. Each
// place that the collar table gives one of them is asked: where a row says how it starts, the straight line of its length from
// there, else its collar alone.
//
// Those that a path may come near to between two depths, the nearest place of each, the nearest first: nearer than the clearance
// and a twentieth of how far down the other hole that is, which it may have deviated (common practice, no source), or within one
// pad of the path's start. `clearance`: m.
std::vector<NearHole> near_left_out(const paths::Path& path, double from, double to, double clearance,
                                    const tables::Records& records, const std::vector<paths::Path>& paths);

}  // namespace selvage::planning
