#pragma once

#include "drawing/labels.h"
#include "sheets/marks.h"

#include <optional>
#include <vector>

namespace selvage::sheets {

// What a block of words keeps clear of.
struct TakenPaper {
    const std::vector<Box>& boxes;
    const std::vector<drawing::Segment>& lines;
    double from_window = 6.0, air = 3.0;  // mm: to the window's sides, to what is taken
};

// A box of that size, mm, within a window where nothing is taken: in a corner, else along the sides, else further in.
std::optional<Box> free_place(const Box& window, double width, double height, const TakenPaper& taken);

}  // namespace selvage::sheets
