#pragma once

#include "sheets/marks.h"

#include <string>

// Grades as bars square to the trace, their length a step for each tenfold.
namespace selvage::sheets {

// The grade whose bar has no length: 1 g/t, 0.1 oz, 0.01 %; in the analyte's unit.
double bar_zero(const std::string& unit);
// Length on paper of a grade's bar, mm; 0 at bar_zero and below.
double bar_length_mm(double grade, const std::string& unit, const Tools& tools);

}  // namespace selvage::sheets
