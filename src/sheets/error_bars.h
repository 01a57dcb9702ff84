#pragma once

#include "sheets/marks.h"
#include "sheets/table_page.h"

#include <vector>

namespace selvage::sheets {

// What the error of each forecast is made of, as a bar of shares of its variance, the same in words, and what a measurement would
// take off it.
TypesetTable error_budget_table(const Results& results, const Tools& tools);

}  // namespace selvage::sheets
