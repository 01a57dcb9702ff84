#pragma once

#include "drawing/contour.h"

#include <vector>

namespace selvage::drawing {

// Pieces joined end to start where the points are equal to the last bit. A piece without length is left out. Lines come ordered
// by their lowest, then leftmost point; closed ones start there.
std::vector<ContourLine> joined(const std::vector<Segment>& pieces);

// Without the pairs of edges that run along each other in opposite directions: what is left goes round the whole.
std::vector<Segment> without_opposites(const std::vector<Segment>& edges);

}  // namespace selvage::drawing
