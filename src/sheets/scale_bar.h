#pragma once

#include "base/units.h"
#include "sheets/marks.h"

namespace selvage::sheets {

constexpr double scale_bar_room = 112.0;  // mm, of the foot's right end

// "SCALE 1:1000", its note and a bar of round lengths, right-aligned in the foot.
Marks scale_bar_marks(const Box& foot, double denominator, const std::string& note, base::LengthUnit unit, const Tools& tools);

// "SCALE 1:1000"
std::string scale_text(double denominator);

}  // namespace selvage::sheets
