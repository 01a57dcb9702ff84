#pragma once

#include "drawing/sheet.h"
#include "sheets/compose.h"
#include "sheets/grade_classes.h"
#include "sheets/page.h"
#include "sheets/section_set.h"

#include <vector>

namespace selvage::sheets {

// The plan: collars by state, traces seen from above, hits, the veins where they come to the ground, outcrops with their
// attitude, pads, section lines, likely pierce points, coordinates and north. On one sheet, or in parts that meet at match lines.
std::vector<drawing::Sheet> plan(const Results& results, const RunFacts& run, const GradeClasses& classes,
                                 const SectionSet& sections, const Tools& tools);

}  // namespace selvage::sheets
