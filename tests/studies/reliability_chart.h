#pragma once

#include "drawing/sheet.h"
#include "drawing/style.h"
#include "studies/study.h"

#include <vector>

namespace selvage::studies {

// Into a box of the sheet: how often ranges of 50, 80 and 95 % held, a sign for each pool of the studies, beside what was said.
void draw_reliability(drawing::Sheet& sheet, const drawing::Box& box, const std::vector<Study>& studies,
                      const drawing::Style& style);

}  // namespace selvage::studies
