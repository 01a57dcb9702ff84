#pragma once

#include "planning/on_the_way.h"
#include "planning/reach.h"

#include <vector>

namespace selvage::planning {

// What is passed no further down than this, m, is passed at the start.
constexpr double near_start = 30.0;

// The holes that a straight hole passes nearer than a distance, m, the nearest first. Those of its own pad count from where the
// two no longer part.
std::vector<NearestHole> holes_passed(const Reach& hole, double within, const std::vector<paths::Path>& paths);

}  // namespace selvage::planning
