#pragma once

#include "sheets/section_drawing.h"

// Which stretch of trace on a cross section is whose, and how far off the section it lies.
namespace selvage::sheets {

// Wants the labels that say so; after all else is drawn.
void want_trace_remarks(SectionDrawing& drawing);

}  // namespace selvage::sheets
