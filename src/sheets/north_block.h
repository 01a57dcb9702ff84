#pragma once

#include "settings/project.h"
#include "sheets/marks.h"

#include <string>
#include <vector>

namespace selvage::sheets {

// North on a plan: the arrow, and where true and magnetic north lie from grid north.
struct NorthBlock {
    Marks marks;
    Box box;
};

// In the window's upper right corner.
NorthBlock north_block(const settings::Project& project, const std::string& date, const Box& window, const Tools& tools);

}  // namespace selvage::sheets
