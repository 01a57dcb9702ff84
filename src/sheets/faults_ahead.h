#pragma once

#include "faults/fault.h"
#include "paths/path.h"

#include <string>
#include <vector>

namespace selvage::sheets {

// A fault that a hole is to cross: broken ground, and water.
struct FaultAhead {
    std::string name;
    double depth = 0.0, depth_p10 = 0.0, depth_p90 = 0.0;  // m down the hole: by the plane as it lies today; 8 holes of 10
};

// Where a path first crosses each fault between two depths, the shallowest first. The doubt is that of the plane's place, of the
// path there and of the fault's waves, over the sine of the angle between them.
std::vector<FaultAhead> faults_ahead(const paths::Path& path, const std::vector<faults::Fault>& faults, double from, double to);

}  // namespace selvage::sheets
