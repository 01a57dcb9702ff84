#pragma once

#include "sheets/page.h"

#include <vector>

namespace selvage::sheets {

constexpr const char* methods_sheet_kind = "methods";

// How the run was made, what was assumed, and the cautions in full, as pages to read.
std::vector<drawing::Sheet> methods_sheet(const Results& results, const RunFacts& run, const Tools& tools);

}  // namespace selvage::sheets
