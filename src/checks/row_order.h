#pragma once

#include "checks/holes.h"
#include "tables/records.h"

namespace selvage::checks {

// Left out or cut, in every table: rows that stand twice, intervals whose from is not above their to, rows below the hole's end.
//   An interval that runs over the end by a metre or less is cut there; a log's (geology, recovery, minerals, sizes) by any
//   length. Stations and structures up to a metre below it are kept.
void leave_out_impossible_rows(tables::Records& records, const Holes& holes, Checking& checking);

// Fills `drilled` of active holes from their deepest row, where it is empty or less than that; reports the latter, and planned
// holes that have rows.
void settle_progress(tables::Records& records, Checking& checking);

}  // namespace selvage::checks
