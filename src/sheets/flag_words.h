#pragma once

#include "forecast/pierce.h"
#include "tables/records.h"

#include <string>

namespace selvage::sheets {

// A word of the closed lists of flags and checks as a reader says it: "beyond-extent" is "outside the modelled ground",
// "doubtful-intercept" is "doubtful intercept".
std::string flag_words(const std::string& flag);
// That a hole runs so nearly along a vein that it may not cross it: its forecast is of where it comes nearest.
bool may_pass_by(const forecast::Pierce& pierce);

// What a pick's state other than vein means for what is counted: "the vein's place is known, but ..."; empty of vein.
std::string state_meaning(tables::PickState state);

}  // namespace selvage::sheets
