#pragma once

#include "base/units.h"
#include "sheets/marks.h"

#include <functional>
#include <string>
#include <vector>

// Grid and axes of a drawing window: lines about every 50 mm at round figures of the project's unit.
namespace selvage::sheets {

// What the window's axes say, in the project's unit.
struct GridAxis {
    double at_start = 0.0;      // value at the window's left or lower edge
    double units_per_mm = 1.0;  // rising to the right or upwards
    std::string title;          // "elevation, m", "m along the section"; empty: none
    bool with_sign = false;     // "+50"
    bool spaced = false;        // "439 850"
    bool labelled = true;
    bool upright = false;  // vertical axis: figures read from below, where they are too long for the margin
    bool lines = true;     // false: no lines and no figures
};

// The step between grid lines: 1, 2 or 5 times a power of ten, nearest to 50 mm on paper and not under 35 mm.
double grid_step(double units_per_mm);

// Grid lines within the window and the figures outside it; vertical figures on both sides. Halves between two grid lines get a
// small tick each tenth or fifth.
Marks grid_marks(const Box& window, const GridAxis& across, const GridAxis& up, const Tools& tools);

}  // namespace selvage::sheets
