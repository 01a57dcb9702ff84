#pragma once

#include "sheets/log_records.h"
#include "sheets/page.h"

#include <vector>

namespace selvage::sheets {

constexpr const char* strip_log_kind = "strip-log";

// One hole's log: all of it at 1:500 or the next scale of the ladder that fits, and its picks at 1:50; a page, or more where
// there are more picks than it holds.
std::vector<drawing::Sheet> strip_log(const LoggedHole& hole, const Results& results, const RunFacts& run, const Tools& tools);

}  // namespace selvage::sheets
