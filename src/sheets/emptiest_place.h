#pragma once

#include "sheets/section_drawing.h"

#include <optional>

namespace selvage::sheets {

// Where a block of words of that size, mm, stands freest of what a cross section has drawn and still wants labelled; nothing
// where it finds no free paper.
std::optional<Box> emptiest_place(const SectionDrawing& drawing, double width, double height);

}  // namespace selvage::sheets
