#pragma once

#include "drawing/sheet.h"
#include "sheets/compose.h"
#include "sheets/grade_classes.h"
#include "sheets/key_plan.h"
#include "sheets/page.h"
#include "sheets/section_set.h"

#include <cstddef>
#include <vector>

namespace selvage::sheets {

// The long section of one vein, laid on its mean plane: hits, misses, forecasts and outcrops with their labels, where the model
// ends and why, lines of equal grade x thickness, the cross sections.
// On one sheet, or in parts that meet at match lines.
//   vein  number in Results::veins
std::vector<drawing::Sheet> long_section(const Results& results, std::size_t vein, const RunFacts& run,
                                         const GradeClasses& classes, const SectionSet& sections, const KeyMap& map,
                                         const Tools& tools);

}  // namespace selvage::sheets
