#pragma once

#include "drawing/labels.h"
#include "sheets/plan_labels.h"

#include <vector>

// Names at the signs of a plan, besides those at collars and feet.
namespace selvage::sheets {

// Likely pierce points by their hole's name. One that its hole does not come to stands off every trace: it must bear the name, or
// be listed; others stand on their trace.
enum class PierceNames { beyond_end, within_reach };
std::vector<drawing::Label> pierce_labels(const Results& results, PierceNames which, const PaperFrame& frame, const Tools& tools);

// What is named where `plan_labels` leave room: pierce points within reach, the hits and misses of holes that start near others,
// and where a vein goes on beyond the window.
std::vector<drawing::Label> plan_point_labels(const Results& results, const std::vector<CollarGroup>& groups,
                                              const std::vector<VeinAtGround>& veins, const PaperFrame& frame,
                                              const Tools& tools);

}  // namespace selvage::sheets
