#pragma once

#include "sheets/compose.h"
#include "sheets/table_page.h"

namespace selvage::sheets {

// The modelled veins: what they rest on, how they lie, how well they foretell their own holes.
TypesetTable vein_table(const Results& results);

// Each intercept foretold along its hole from all the others, beside what came.
TypesetTable fit_table(const Results& results);

}  // namespace selvage::sheets
