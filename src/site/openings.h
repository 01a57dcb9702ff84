#pragma once

#include "site/ground.h"
#include "tables/records.h"

#include <string>
#include <vector>

// Openings in the rock that the tables tell of, whether or not a map of old workings shows them.
namespace selvage::site {

// What a hole was drilled into.
struct OpenedVoid {
    std::string hole;
    double from = 0.0, to = 0.0;  // m down the hole
    std::string note;             // the words of whoever logged it; may be empty
};

// A channel or face that was sampled so far below the ground that somebody must have stood in a working.
struct SampledBelow {
    std::string hole;
    double depth = 0.0;  // m below the ground
};

struct Openings {
    std::vector<OpenedVoid> voids;
    std::vector<SampledBelow> sampled;
    bool empty() const { return voids.empty() && sampled.empty(); }
};

// Nearer to the ground than this a channel or face may lie in the open, m: assumed ground is no better known. Common practice, no
// source.
constexpr double surely_below = 10.0;

// Picks that are void, rows of geology and events of drilling that call what was met a void, stope, cavity or working; of one
// hole those that overlap are one. In the order of the collar table, then by depth.
Openings known_openings(const tables::Records& records, const Ground& ground);

}  // namespace selvage::site
