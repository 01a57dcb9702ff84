#pragma once

#include "base/units.h"
#include "drawing/labels.h"
#include "sheets/axonometric.h"
#include "sheets/marks.h"

namespace selvage::sheets {

// Bars of one round length along the three axes from one point, with what each is.
struct AxisBars {
    Marks marks;
    Box box;
};

// In the corner of the window where they cover least; lower left before lower right, upper left, upper right.
AxisBars placed_bars(const AxonometricView& view, const drawing::Obstacles& obstacles, const base::MapFrame& map,
                     const Tools& tools);

}  // namespace selvage::sheets
