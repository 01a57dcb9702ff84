#pragma once

#include "sheets/section_drawing.h"

namespace selvage::sheets {

// Every vein whose trace comes into the window: band, fill, walls by doubt, its name; then the faults that the project states.
void draw_veins(SectionDrawing& drawing);
void draw_faults(SectionDrawing& drawing);

}  // namespace selvage::sheets
