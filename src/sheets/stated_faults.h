#pragma once

#include "base/plane.h"
#include "drawing/labels.h"
#include "sheets/marks.h"
#include "sheets/page.h"

#include <Eigen/Core>

#include <functional>
#include <optional>
#include <string>
#include <vector>

// The faults that the project file states, as lines on whatever plane a sheet draws.
namespace selvage::sheets {

struct StatedFault {
    std::string name;
    std::vector<Point> line;  // its two ends on paper, mm
};

// Where a place on paper lies, m relative to the project origin: even over the paper, as every sheet's plane is.
using PlaceOnSheet = std::function<Eigen::Vector3d(const Point&)>;

// The faults that cut the sheet's plane within the window, and below the ground where that is given.
std::vector<StatedFault> stated_faults(const Results& results, const PlaceOnSheet& place, const Box& window,
                                       const std::optional<base::Plane>& ground);

Marks fault_marks(const std::vector<StatedFault>& faults, const Tools& tools);
// The fault's name, to stand anywhere beside its line.
drawing::Label fault_label(const StatedFault& fault, const Tools& tools);

}  // namespace selvage::sheets
