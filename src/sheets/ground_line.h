#pragma once

#include "sheets/marks.h"

#include <vector>

namespace selvage::sheets {

// The ground's line on a section or long section, with short slanting strokes under it. line: mm, from left to right.
//   beyond  the topography ends here, and the ground is assumed
Marks ground_line_marks(const std::vector<Point>& line, const Tools& tools, bool beyond = false);

}  // namespace selvage::sheets
