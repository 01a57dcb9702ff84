#pragma once

#include "support/label_cases.h"

#include <string>

// What can be wrong with the way that labels were placed, found from their boxes and leaders alone.
namespace selvage::made_up {

// What is wrong, a line each; empty if nothing is: labels on labels, on points' symbols, on obstacles, outside of the window;
// leaders that cross leaders or run through labels or are too long; labels neither drawn nor listed; figures that say otherwise.
std::string faults_of(const LabelCase& made, const drawing::PlacedLabels& placed);

}  // namespace selvage::made_up
