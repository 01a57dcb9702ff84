#pragma once

#include "app/results.h"
#include "base/json.h"
#include "drawing/style.h"
#include "output/write.h"

#include <vector>

namespace selvage::app {

// Every file of the pack: pack.pdf, sheets/*.pdf, tables/*.csv, run.json, which carries earlier forecasts on.
std::vector<output::PackFile> pack_files(const Results& results, const drawing::Style& style,
                                         std::vector<base::JsonValue> earlier_forecasts);

}  // namespace selvage::app
