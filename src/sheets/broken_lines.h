#pragma once

#include "sheets/marks.h"

#include <vector>

namespace selvage::sheets {

// Marks with every open line broken where it would run through one of the boxes (words on a tint have no halo: the lines give
// way). Areas and closed outlines stay as they are, but for closed lines without a fill, which are opened.
Marks broken_round(Marks marks, const std::vector<Box>& boxes);

// The strokes of all lines among the marks, added to `segments`: what words must keep off.
void add_segments(std::vector<drawing::Segment>& segments, const Marks& marks);

}  // namespace selvage::sheets
