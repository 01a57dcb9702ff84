#pragma once

#include "sheets/grade_classes.h"
#include "sheets/page.h"
#include "sheets/section_set.h"

#include <vector>

namespace selvage::sheets {

constexpr const char* forecast_sheet_kind = "forecasts";

// Where planned and active holes should meet each vein, in figures and words; how the chance of a vein not seen yet falls as an
// active hole deepens; what the error of each forecast is made of. One page that says so where no hole is planned or active.
std::vector<drawing::Sheet> forecast_sheet(const Results& results, const RunFacts& run, const GradeClasses& classes,
                                           const SectionSet& sections, const Tools& tools);

}  // namespace selvage::sheets
