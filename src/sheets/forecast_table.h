#pragma once

#include "sheets/compose.h"
#include "sheets/grade_classes.h"
#include "sheets/section_set.h"
#include "sheets/table_page.h"

#include <string>

namespace selvage::sheets {

// The name by which links reach a hole's forecast for a vein.
std::string forecast_row_destination(const std::string& hole, const std::string& vein);

// Where planned and active holes should pierce and what they should find: a row of figures, and under it the same in words.
TypesetTable forecast_table(const Results& results, const GradeClasses& classes, const SectionSet& sections);

}  // namespace selvage::sheets
