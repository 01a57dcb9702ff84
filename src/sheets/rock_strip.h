#pragma once

#include "sheets/section_drawing.h"

namespace selvage::sheets {

// Logged rock along the traces in the slab, on their upper side; the picked vein in its full colour across the strip. A strip
// stands aside where it would cover another trace or strip (holes of one pad): the first in collar order has its strip whole.
void draw_rock_strips(SectionDrawing& drawing);

}  // namespace selvage::sheets
