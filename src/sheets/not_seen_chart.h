#pragma once

#include "sheets/table_page.h"

namespace selvage::sheets {

// For each active hole and vein that it has not met: the chance that the vein is still ahead as the hole deepens without seeing
// it, a small chart each; no row where there is none.
TypesetTable not_seen_charts(const Results& results, const Tools& tools);

}  // namespace selvage::sheets
