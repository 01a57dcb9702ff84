#pragma once

#include "sheets/compose.h"
#include "sheets/grade_classes.h"
#include "sheets/marks.h"

#include <vector>

namespace selvage::sheets {

constexpr const char* step_out_sheet_kind = "step-outs";

// Where the next holes should pierce, by rank and with the reason. No sheet where there is none.
std::vector<drawing::Sheet> step_out_sheet(const Results& results, const RunFacts& run, const GradeClasses& classes,
                                           const Tools& tools);

}  // namespace selvage::sheets
