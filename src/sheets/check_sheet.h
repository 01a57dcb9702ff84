#pragma once

#include "sheets/page.h"

#include <vector>

namespace selvage::sheets {

constexpr const char* check_sheet_kind = "checks";

// What the checks found in the tables, how well each vein foretells its own intercepts, and how the holes deviate. A run without
// findings says so.
std::vector<drawing::Sheet> check_sheet(const Results& results, const RunFacts& run, const Tools& tools);

}  // namespace selvage::sheets
