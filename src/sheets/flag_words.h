#pragma once

#include "tables/records.h"

#include <string>

namespace selvage::sheets {

// A word of the closed lists of flags and checks as a reader says it: "beyond-extent" is "outside the modelled ground",
// "doubtful-intercept" is "doubtful intercept".
std::string flag_words(const std::string& flag);

// What a pick's state other than vein means for what is counted: "the vein's place is known, but ..."; empty of vein.
std::string state_meaning(tables::PickState state);

}  // namespace selvage::sheets
