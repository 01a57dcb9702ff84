#pragma once

#include "drawing/sheet.h"
#include "sheets/compose.h"
#include "sheets/grade_classes.h"
#include "sheets/level_set.h"
#include "sheets/page.h"

#include <vector>

namespace selvage::sheets {

// A level plan for each level of the set that is drawn, the highest first: what it cuts of the veins' bodies, how well that is
// known, the holes that cross it, hits, likely pierces and faults, the level above in grey. All at one scale and place.
std::vector<drawing::Sheet> level_plans(const LevelSet& set, const Results& results, const RunFacts& run,
                                        const GradeClasses& classes, const Tools& tools);

}  // namespace selvage::sheets
