#pragma once

#include "sheets/call_and_stop.h"

#include <string>
#include <vector>

// A hole and one of the veins ahead of it. Where a fault parts the vein there is a forecast for each block that the hole may come
// through it in: these belong together, and mostly only one of them can come true.
namespace selvage::sheets {

struct VeinAhead {
    std::string hole, vein;
    std::vector<const forecast::Pierce*> pieces;  // the likeliest to be met first; never empty
    const forecast::Pierce& likeliest() const { return *pieces.front(); }
};

// Of all forecasts, in their order. Keeps pointers to them.
std::vector<VeinAhead> veins_ahead(const std::vector<forecast::Pierce>& pierces);

// That the hole is long enough for one of the pieces to be worth a mark.
bool is_within_reach(const VeinAhead& ahead);
// Chance that the hole as planned meets the vein: that it gets there, and the vein is there.
double chance_to_meet(const VeinAhead& ahead);
// How much more of that chance there is where the hole goes on down to `depth`, m.
double gain_down_to(const VeinAhead& ahead, double depth);

// From the first piece within reach to call for to the last one to stop after; `reached`: any of them is.
CallAndStop call_and_stop(const VeinAhead& ahead, const Results& results);
std::string call_and_stop_words(const VeinAhead& ahead, const Results& results);

// One forecast in words (pierce_words), or the choice: "in the foot wall of Cross Fault at 293 m (chance to meet it 0.74) or in
// its hanging wall at 313 m (0.07)".
std::string ahead_words(const VeinAhead& ahead, const base::MapFrame& frame);
// "outside the modelled ground" where the likeliest piece is, with a comma before it; else nothing.
std::string extent_words(const VeinAhead& ahead);

}  // namespace selvage::sheets
