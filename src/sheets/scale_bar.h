#pragma once

#include "base/units.h"
#include "sheets/marks.h"

#include <string>
#include <vector>

namespace selvage::sheets {

constexpr double scale_bar_room = 112.0;  // mm, of the foot's right end

// "SCALE 1:1000", its note and a bar of round lengths, right-aligned in the foot.
Marks scale_bar_marks(const Box& foot, double denominator, const std::string& note, base::LengthUnit unit, const Tools& tools);

// Under a small window: its scale with a note, and at its right end one round length.
Marks small_scale_marks(const Box& window, double metres_per_mm, const std::string& note, base::LengthUnit unit,
                        const Tools& tools);

// The largest of 1, 2, 5 x powers of ten that is no longer than `most`, in whatever unit.
double round_length(double most);

// "SCALE 1:1000"
std::string scale_text(double denominator);

}  // namespace selvage::sheets
