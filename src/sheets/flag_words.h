#pragma once

#include <string>

namespace selvage::sheets {

// A word of the closed lists of flags and checks as a reader says it: "beyond-extent" is "outside the modelled ground",
// "doubtful-intercept" is "doubtful intercept".
std::string flag_words(const std::string& flag);

}  // namespace selvage::sheets
