#pragma once

#include "settings/project.h"
#include "tables/records.h"

#include <string>

namespace selvage::tables {

// SHA-256 over what was read: the project's values and every value of every record, not how the files write them. Names of
// files, rows and the order of columns do not matter; the order of rows does.
std::string fingerprint_of(const settings::Project& project, const Records& records);

}  // namespace selvage::tables
