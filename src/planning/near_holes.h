#pragma once

#include "paths/path.h"

#include <optional>
#include <string>
#include <vector>

// Which other holes a planned or active hole comes near to.
namespace selvage::planning {

// Where the expected line comes nearest to another hole.
struct NearHole {
    std::string hole;
    double distance = 0.0, depth = 0.0;  // m; of this path
};

// Holes that start within one pad of each other, and a wedge and its parent, are necessarily near in the first 30 m below their
// common start, and as long after that as they go on parting by 15 cm in 10 m (common practice, no source). Only past that
// stretch do they count like any other hole.
struct NearHoles {
    std::vector<NearHole> under;      // nearer than the clearance, the nearest first
    std::vector<NearHole> beside;     // nearer than the clearance at a common start alone, the nearest first
    std::optional<NearHole> nearest;  // of all that count
};

// Between two depths of a path; cancelled holes are left out. `clearance`: m.
NearHoles near_holes(const paths::Path& path, double from, double to, double clearance, const std::vector<paths::Path>& paths);

}  // namespace selvage::planning
