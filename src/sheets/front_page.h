#pragma once

#include "sheets/grade_classes.h"
#include "sheets/page.h"
#include "sheets/section_set.h"

#include <vector>

namespace selvage::sheets {

constexpr const char* front_page_kind = "week";

// The week on a page: what was drilled and what came in, each result beside what was said before; the next holes to meet a vein;
// what is to be decided, a box to tick each; faults of the data and assays waited for; a small long section of each vein with
// news. It keeps a box free for the contents of the pack.
struct FrontPage {
    drawing::Sheet sheet;
    drawing::Box contents;
};
FrontPage front_page(const Results& results, const RunFacts& run, const GradeClasses& classes, const SectionSet& sections,
                     const Tools& tools);

}  // namespace selvage::sheets
