#pragma once

#include "drawing/sheet.h"
#include "sheets/compose.h"
#include "sheets/grade_classes.h"
#include "sheets/page.h"
#include "sheets/section_set.h"

#include <cstddef>
#include <string>
#include <vector>

// The intercepts as a typeset table, low and nil ones kept, and the forecasts of holes that are not drilled yet.
namespace selvage::sheets {

// The name by which links reach a hole's row for a vein: an intercept's, or that of none.
std::string intercept_row_destination(const std::string& hole, const std::string& vein);

// Rows that the table holds: intercepts, and holes without a vein by any reason.
struct TableCounts {
    std::size_t intercepts = 0, no_vein = 0;
};
TableCounts intercept_table_counts(const Results& results);

// As many sheets as it takes, the forecasts after the intercepts. Rows link to the cross section that they stand on.
std::vector<drawing::Sheet> intercept_table(const Results& results, const RunFacts& run, const GradeClasses& classes,
                                            const SectionSet& sections, const Tools& tools);

}  // namespace selvage::sheets
