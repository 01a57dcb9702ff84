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

// P (1 - F(d)) / (1 - P F(d)) of a vein's pieces that one hole may cross: F(d) the part of their chances C that is used up at d,
// P the chance that one is crossed at all, min(1, sum of C), times the vein's presence there (weighed by C); a vein in the core
// is taken to be recognised.
double chance_ahead(const std::vector<const Pierce*>& pieces, double depth);

// For each active hole and vein that it has a forecast of: from as deep as it was drilled, then every whole step, to the last
// stop depth. step m.
std::vector<NotSeen> not_seen_yet(const std::vector<Pierce>& pierces, const std::vector<paths::Path>& paths, double step);

}  // namespace selvage::forecast
