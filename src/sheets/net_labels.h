#pragma once

#include "drawing/labels.h"
#include "sheets/net_drawing.h"

#include <vector>

// The numbers of sets and the names of modelled planes, beside their signs on a net.
namespace selvage::sheets {

constexpr double pole_half = 0.75;  // mm, of a pole's ring

// Clear of signs and planes where there is room, else over planes, else on a leader that may pass under poles: no words stand on
// a pole while the net has any free place. Gives the words and leaders, to be drawn before the poles.
Marks net_labels(const std::vector<drawing::Label>& labels, const drawing::Obstacles& signs_and_planes,
                 const std::vector<Point>& poles, const Net& net, const Tools& tools);

}  // namespace selvage::sheets
