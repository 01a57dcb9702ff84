#pragma once

#include "forecast/pierce.h"
#include "paths/path.h"

#include <string>
#include <vector>

// An active hole that has not seen the vein yet: how likely does it still lie ahead?
namespace selvage::forecast {

// One depth of one hole's curve. One row of not_seen_yet.csv.
struct NotSeen {
    std::string hole, vein;
    std::size_t vein_number = 0;
    double depth = 0.0;         // m
    double chance_ahead = 0.0;  // given that the core down to there showed no vein
};

// P (1 - F(d)) / (1 - P F(d)): P the vein's presence at the crossing, F(d) the chance that the crossing comes before d; a vein in
// the core is taken to be recognised.
double chance_ahead(const Pierce& pierce, double depth);

// For each forecast of an active hole: from as deep as it was drilled, then every whole step, to its stop depth. step m.
std::vector<NotSeen> not_seen_yet(const std::vector<Pierce>& pierces, const std::vector<paths::Path>& paths, double step);

}  // namespace selvage::forecast
