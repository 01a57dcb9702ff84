#pragma once

#include "sheets/marks.h"

namespace selvage::sheets {

// Frame line, the second line outside it, fields of 50 mm counted from the middles with letters and figures, centring marks.
Marks frame_marks(const Box& frame, const Tools& tools);

}  // namespace selvage::sheets
