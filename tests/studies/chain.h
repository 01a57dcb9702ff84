#pragma once

#include "app/results.h"
#include "support/made_up_project.h"

#include <string>

namespace selvage::studies {

// A made-up project through its tables, as the program takes it: written to `folder` in the temporary folder, read, modelled,
// forecast.
app::Results results_of(const made_up::MadeUpProject& project, const std::string& folder);

// The forecast of a hole; null where there is none.
const forecast::Pierce* pierce_of(const app::Results& results, const std::string& hole);

// The chance that was given to depths above this one, the vein being crossed.
double rank_in(const veins::Crossing& crossing, double depth);

}  // namespace selvage::studies
