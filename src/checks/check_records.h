#pragma once

#include "base/finding.h"
#include "tables/records.h"

#include <string>
#include <vector>

// What the tables alone can show to be wrong.
namespace selvage::checks {

// The records that can be used, and what was left out, cut, merged or is doubtful, each with its row: unknown holes, from after
// to, rows below the hole's end, overlaps, doubled collars, disturbed or impossible stations, targets out of reach ... Names are
// spelled as the collar table and the project file (`veins`) spell them; `drilled` of an active hole is its deepest row where the
// table gives none. Findings stand in the order of tables, then rows.
base::Checked<tables::Records> usable_records(tables::Records records, const std::vector<std::string>& veins);

const std::vector<const base::Check*>& checks();

}  // namespace selvage::checks
