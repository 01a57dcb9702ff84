#pragma once

#include "sheets/compose.h"
#include "sheets/running_text.h"

#include <vector>

// How this run was made, in plain words with its own settings and figures.
namespace selvage::sheets {

// From the tables to the intercepts.
std::vector<TextSection> data_methods(const Results& results, const RunFacts& run);
// From the veins to the step-outs.
std::vector<TextSection> model_methods(const Results& results);
// What nobody gave and was assumed.
TextSection assumptions(const Results& results);
// All cautions of the pack, in full.
TextSection cautions_in_full(const Results& results, const RunFacts& run, const drawing::ContentLook& content);

}  // namespace selvage::sheets
