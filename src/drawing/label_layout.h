#pragma once

#include "drawing/labels.h"

namespace selvage::drawing {

// The size of a label's box, mm: its lines from a little over the first one's capitals to the last one's descent, and the head
// symbol's column.
struct LabelSize {
    double width = 0.0, height = 0.0;
    double first_line_middle = 0.0;  // from the box's top down to the middle of the first line's capitals
};

LabelSize size_of(const Label& label, const LabelRules& rules, const FontMetrics& fonts);
// The label with its short line alone.
Label in_short(Label label);
LabelSize size_of_number(std::size_t number, const LabelRules& rules, const FontMetrics& fonts);

}  // namespace selvage::drawing
