#pragma once

#include "base/finding.h"
#include "base/json.h"

#include <string>
#include <string_view>
#include <vector>

// What earlier runs said, from their records.
namespace selvage::history {

// The number of the record's form that is written now. A reader for every older one stays here.
constexpr int record_format = 1;

// Every forecast that a run record (run.json) holds, its own and those it carried on, oldest first. A text that is no run record,
// or one of a form that is not known here, gives none and a finding; `source` is the file's name for it.
base::Checked<std::vector<base::JsonValue>> forecasts_of(std::string_view run_record, const std::string& source);

const std::vector<const base::Check*>& checks();

}  // namespace selvage::history
