#pragma once

#include "paths/path.h"
#include "planning/hole_points.h"

#include <optional>
#include <string>
#include <vector>

// Which other holes a planned or active hole comes near to.
namespace selvage::planning {

constexpr double common_start = 30.0;  // m of two holes

// Where the expected line comes nearest to another hole.
struct NearHole {
    std::string hole;
    double distance = 0.0, depth = 0.0;  // m; of this path
    bool past_end = false;               // half a metre or more below its planned end, where it may go on to look for a vein
};

// Holes that start within one pad of each other, and a wedge and its parent, are necessarily near in the first `common_start`
// below their common start, and as long after that as they go on parting by 15 cm in 10 m (common practice, no source). In that
// stretch they count only where they draw together: where one comes nearer to the other than 0.7 of what their starts are apart.
// That is how near a hole of dip 45 degrees passes under the start of one that lies straight ahead of its own and never meets it.
struct NearHoles {
    std::vector<NearHole> under;      // nearer than the clearance, the nearest first
    std::vector<NearHole> beside;     // nearer than the clearance at a common start alone, the nearest first
    std::optional<NearHole> nearest;  // of all, from `nearest_from` on
    double nearest_from = 0.0;        // m: `from`, or 30 m below the start where others start beside it, if that is deeper
};

// Whether a depth lies past the planned end of a path by half a metre or more.
bool is_past_end(const paths::Path& path, double depth);

// Between two depths of a path. `clearance`: m.
NearHoles near_holes(const paths::Path& path, double from, double to, double clearance, const std::vector<paths::Path>& paths);

// The same rule of one other hole: whether it would stand among those that are under the clearance.
bool comes_too_near(const paths::Path& path, double from, double to, double clearance, const HolePoints& other);

}  // namespace selvage::planning
