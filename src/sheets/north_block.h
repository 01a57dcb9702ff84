#pragma once

#include "drawing/labels.h"
#include "settings/project.h"
#include "sheets/marks.h"

namespace selvage::sheets {

// North on a plan: the arrow, and where true and magnetic north lie from grid north.
struct NorthBlock {
    Marks marks;
    Box box;
};

// In the corner of the window where it covers least of what is drawn, the upper right one if it can be.
NorthBlock north_block(const settings::North& north, const Box& window, const drawing::Obstacles& obstacles, const Tools& tools);

}  // namespace selvage::sheets
