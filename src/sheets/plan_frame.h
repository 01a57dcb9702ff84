#pragma once

#include "base/units.h"
#include "sheets/marks.h"
#include "sheets/page.h"
#include "sheets/paper_frame.h"

#include <Eigen/Core>

#include <vector>

// How what is seen from above lies on its paper: plans and levels.
namespace selvage::sheets {

struct PlanFrame {
    PaperFrame paper;
    double denominator = 1000.0;
};
// The largest scale of the ladder at which these points (m, at least one) have free paper round them.
PlanFrame plan_frame(const std::vector<Eigen::Vector3d>& points, const Box& window, const Scales& scales);

// Coordinates of the map along the window, and their grid.
Marks plan_axes(const PaperFrame& frame, const base::MapFrame& map, const Tools& tools);

}  // namespace selvage::sheets
