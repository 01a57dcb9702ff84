#pragma once

#include "sheets/compose.h"

#include <Eigen/Core>

#include <functional>
#include <string>
#include <vector>

// Holes that say nothing of a vein, though it was due in them: stopped short, core lost, faulted out, not judged.
namespace selvage::sheets {

// Lines for a side list, one for each vein and reason: "stopped short of Heron: HC-02 (due at 243 m), HC-04 (334 m)"; without the
// depths where not `with_depths`. wanted: whether a sheet concerns itself with the point where the vein was due.
std::vector<std::string> silent_hole_lines(const Results& results, bool with_depths,
                                           const std::function<bool(const Eigen::Vector3d&)>& wanted);

}  // namespace selvage::sheets
