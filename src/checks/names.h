#pragma once

#include "checks/collar_rows.h"
#include "checks/holes.h"
#include "tables/records.h"

#include <string>
#include <vector>

namespace selvage::checks {

// Spells the holes of all rows as the collar table does. Rows of holes without a collar are left out, one finding a hole and
// table.
void spell_holes(tables::Records& records, const Holes& holes, const std::map<std::string, Gone>& gone, Checking& checking);

// Spells the veins of all rows as the project file does. A pick of an unknown vein is left out; elsewhere the name is dropped.
void spell_veins(tables::Records& records, const std::vector<std::string>& veins, Checking& checking);

}  // namespace selvage::checks
