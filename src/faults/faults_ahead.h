#pragma once

#include "faults/fault_pieces.h"
#include "paths/path.h"

#include <string>
#include <vector>

namespace selvage::faults {

// A fault on a hole's way: broken ground, and water.
struct FaultAhead {
    std::string name;
    bool crosses = true;                      // false: the line only comes so near that the hole may
    double depth = 0.0;                       // m down the hole; where it does not cross, where it comes nearest
    double depth_p10 = 0.0, depth_p90 = 0.0;  // 8 holes of 10
    double chance = 1.0;                      // where it does not cross: that the hole does
};

// The faults that a path crosses, or may cross, between two depths, by their pieces as they lie today; the shallowest first. The
// doubt is that of the plane's place, of the path there and of the fault's waves, over the sine of the angle between them.
std::vector<FaultAhead> faults_ahead(const paths::Path& path, const Events& events, double from, double to);

// Sd of the depth at which a path crosses a fault, as younger ones moved it, near a depth, m: what that doubt is made of.
double crossing_sd(const paths::Path& path, const Fault& fault, const Shift& moved, double depth);

}  // namespace selvage::faults
