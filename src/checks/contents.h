#pragma once

#include "checks/holes.h"
#include "tables/records.h"

namespace selvage::checks {

// Samples of a hole that overlap: the lower one is cut at the upper one's end, or left out where little would remain of it. Only
// primary samples; duplicates repeat an interval on purpose.
void settle_assays(std::vector<tables::Assay>& assays, const Holes& holes, Checking& checking);

// Numbers of samples, and values that no rock of the kind has.
void check_assays(const tables::Records& records, Checking& checking);

// Overlaps and gaps of logs, long core runs, picks of two veins that overlap, contacts away from their vein's picks.
void check_logs(const tables::Records& records, const Holes& holes, Checking& checking);

// Leaves out structures without any angle.
void settle_structures(std::vector<tables::Structure>& structures, Checking& checking);

// Leaves out outcrops and pads far from all collars, and pads whose name another one has.
void settle_places(tables::Records& records, Checking& checking);

}  // namespace selvage::checks
