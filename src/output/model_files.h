#pragma once

#include "drawing/style.h"
#include "output/write.h"

#include <vector>

namespace selvage::output {

// model/<vein>.ply, one closed body a vein (its blocks' side by side), and model.glb: veins, faults, ground, traces, intercepts
// and forecasts, each a named node in the style's colours.
std::vector<PackFile> model_files(const Results& results, const drawing::Style& style);

}  // namespace selvage::output
