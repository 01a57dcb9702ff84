#pragma once

#include "sheets/table_page.h"

#include <vector>

namespace selvage::sheets {

// Contacts of core that was not oriented, held against the modelled walls, a row a vein. No row where there is none.
TypesetTable alpha_table(const Results& results);

}  // namespace selvage::sheets
