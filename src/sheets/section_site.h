#pragma once

#include "sheets/section_drawing.h"

namespace selvage::sheets {

// Old workings of the slab, those that the section cuts strongest, and where it crosses the limit of the property.
void draw_site(SectionDrawing& drawing);

}  // namespace selvage::sheets
