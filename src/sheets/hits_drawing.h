#pragma once

#include "sheets/section_drawing.h"

namespace selvage::sheets {

// Samples as bars on the lower side of the traces, structures at their apparent dip, the vein's bar on the trace.
void draw_samples(SectionDrawing& drawing);
void draw_structures(SectionDrawing& drawing);
// Hits and misses: their signs, and the labels that they want.
void draw_hits(SectionDrawing& drawing);
// Voids that holes ran into.
void draw_openings(SectionDrawing& drawing);
// Outcrops of the slab, on the ground's line.
void draw_outcrops(SectionDrawing& drawing);

}  // namespace selvage::sheets
