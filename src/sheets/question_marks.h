#pragma once

#include "sheets/marks.h"

#include <vector>

namespace selvage::sheets {

// Question marks set in a line at even distances, in its colour; none so near to those there are already that they would touch,
// as in the two walls of a thin vein. Appended to `there`; gives how many.
std::size_t add_question_marks(std::vector<drawing::Text>& there, const std::vector<Point>& line, const drawing::Colour& colour,
                               const Tools& tools);

}  // namespace selvage::sheets
