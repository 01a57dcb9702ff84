#pragma once

#include "drawing/sheet.h"
#include "sheets/grade_classes.h"
#include "sheets/overview_page.h"
#include "sheets/page.h"

#include <vector>

namespace selvage::sheets {

// Of view_directions the one in which the bodies hide the fewest hits and misses, of equals the first.
ViewDirection overview_direction(const Results& results, const Tools& tools);

// Veins' bodies, faults, holes and the ground in space, seen at a slant in a parallel view, what is hidden left out or broken;
// none where no vein has a body.
std::vector<drawing::Sheet> overview(const Results& results, const RunFacts& run, const GradeClasses& classes,
                                     const Tools& tools);

}  // namespace selvage::sheets
