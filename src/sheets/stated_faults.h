#pragma once

#include "drawing/labels.h"
#include "sheets/marks.h"
#include "sheets/page.h"

#include <Eigen/Core>

#include <functional>
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

// The faults that cut the sheet's plane within the window, and below the ground where that is not null.
std::vector<StatedFault> stated_faults(const Results& results, const PlaceOnSheet& place, const Box& window,
                                       const site::Ground* ground);
// The same on the ground itself, seen from above, where a topography is given.
std::vector<StatedFault> faults_on_ground(const Results& results, const PlaceOnSheet& place, const Box& window);

Marks fault_marks(const std::vector<StatedFault>& faults, const Tools& tools);
// Faults as what words keep off; a leader across one costs as much as one across four traces.
void add_faults(drawing::Obstacles& obstacles, const Marks& faults);
// The fault's name, to stand anywhere beside its line.
drawing::Label fault_label(const StatedFault& fault, const Tools& tools);

}  // namespace selvage::sheets
