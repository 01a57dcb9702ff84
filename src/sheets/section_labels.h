#pragma once

#include "sheets/section_drawing.h"

namespace selvage::sheets {

// Gives every wanted label its place and draws it with its leader and class sign; what finds no room goes to the side list, a
// number standing at its point. Boxes that are taken afterwards, and how the placer did.
struct DrawnLabels {
    std::vector<drawing::Box> boxes;
    std::vector<std::string> listed;  // lines of the side list
    drawing::LabelFigures figures;
};
DrawnLabels draw_labels(SectionDrawing& drawing);

}  // namespace selvage::sheets
