#pragma once

#include "sheets/section_drawing.h"

namespace selvage::sheets {

// What is not yet drilled, in its one colour: the path ahead as dots, the fan of 80 % of paths, a bar over the range of each
// pierce, call and stop depths.
void draw_forecasts(SectionDrawing& drawing);

// The forecasts of the slab in words, in the emptiest part of the window; where no part is empty they go to the side list.
void draw_forecast_words(SectionDrawing& drawing);

}  // namespace selvage::sheets
