#pragma once

#include "sheets/section_drawing.h"

#include <string>

// A section lays what is in its slab square onto its own plane. Beside a fault that runs at a slant to the section it so comes to
// stand off the line of the fault by more or less than it lies from it, or on its other side.
namespace selvage::sheets {

// "where the hole is 14 m in front": of a point of a fault that stands clearly off that fault's drawn line; else nothing.
std::string off_drawn_words(const SectionDrawing& drawing, const std::string& fault, const Eigen::Vector3d& point);

// "as modelled does not cross Cross Fault": of a run whose drawn line does, though both its ends lie on one side of it; "may not
// cross" where the whole hole may yet cross it; else nothing.
std::string apparent_crossing_words(const SectionDrawing& drawing, const paths::Path& path, const TraceRun& run);

// How far a point lies from a fault as it is today, m; towards its hanging wall positive. 0: there is no such fault.
double distance_from_fault(const Results& results, const std::string& fault, const Eigen::Vector3d& point);

}  // namespace selvage::sheets
