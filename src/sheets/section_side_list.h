#pragma once

#include "sheets/section_drawing.h"

#include <string>
#include <vector>

namespace selvage::sheets {

// What the holes of a slab have off it: "HC-16  Sorrel hit 34 m behind: sheet S13"; set closer by sheet where that would be many
// lines. Then the holes that only pass through, by the sheet that shows them, and the holes in which a vein was due in this slab
// that say nothing of it.
std::vector<std::string> section_side_list(const SectionDrawing& drawing);

// Writes lines that the column has no room for on the emptiest paper of the drawing, in one to three columns; false where there
// is none.
bool continue_side_list(SectionDrawing& drawing, const std::vector<std::string>& lines);

}  // namespace selvage::sheets
