#pragma once

#include "sheets/legend_signs.h"
#include "sheets/marks.h"
#include "sheets/paper_frame.h"

#include <cstddef>
#include <vector>

namespace selvage::sheets {

// The veins where they come to the ground, within their modelled extent, by line style of doubt.
struct VeinAtGround {
    std::size_t vein = 0;
    std::vector<std::vector<Point>> pieces;  // mm
    std::vector<Point> goes_on;              // where it leaves the window with its model still running, a little within
    Marks marks;
};
std::vector<VeinAtGround> veins_at_ground(const Results& results, const PaperFrame& frame, DrawnSigns& drawn, const Tools& tools);

}  // namespace selvage::sheets
