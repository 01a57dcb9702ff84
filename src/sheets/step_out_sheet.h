#pragma once

#include "sheets/compose.h"
#include "sheets/grade_classes.h"
#include "sheets/marks.h"

#include <vector>

namespace selvage::sheets {

// Where the next holes should pierce, by rank and with the reason; then what the error of each forecast is made of, and what a
// further measurement would leave of it. No sheet where there is neither.
std::vector<drawing::Sheet> step_out_sheet(const Results& results, const RunFacts& run, const GradeClasses& classes,
                                           const Tools& tools);

}  // namespace selvage::sheets
