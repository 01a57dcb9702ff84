#pragma once

#include "sheets/legend_signs.h"

#include <vector>

// The legend of logged rocks.
namespace selvage::sheets {

// Each rock drawn, by its look; and the veins' picks in their colours, as one entry.
std::vector<LegendEntry> rock_entries(const DrawnSigns& drawn, const Results& results, const Tools& tools);
LegendEntry picked_entry(const DrawnSigns& drawn, const Results& results, const Tools& tools);

}  // namespace selvage::sheets
