#pragma once

#include "sheets/compose.h"
#include "sheets/grade_classes.h"
#include "sheets/key_plan.h"
#include "sheets/page.h"
#include "sheets/section_set.h"

#include <vector>

namespace selvage::sheets {

// A sheet for each section of the set, in its order; or several that meet at match lines, where one would need a smaller scale
// than is allowed.
std::vector<drawing::Sheet> cross_sections(const Results& results, const SectionSet& set, const GradeClasses& classes,
                                           const KeyMap& map, const RunFacts& run, const Tools& tools);

}  // namespace selvage::sheets
