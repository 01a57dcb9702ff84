#pragma once

#include "sheets/table_page.h"

#include <vector>

namespace selvage::sheets {

// What the checks found: errors first, each check's meaning over its rows; of one that comes often the first rows and the count.
TypesetTable check_table(const Results& results, const std::vector<base::Finding>& findings, const Tools& tools);

// How the project's own holes deviate, by type of hole: what planned and active ones are run on by.
TypesetTable deviation_table(const Results& results);

}  // namespace selvage::sheets
