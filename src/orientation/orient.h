#pragma once

#include "base/angle.h"
#include "base/finding.h"
#include "paths/path.h"
#include "settings/project.h"
#include "tables/records.h"

#include <Eigen/Core>

#include <optional>
#include <string>
#include <vector>

namespace selvage::orientation {

// A structure measured on core, in its place. One row of the structures table.
struct Orientation {
    base::Origin origin;
    std::string hole;
    double depth = 0.0;  // m
    std::string kind;    // folded: "contact", "joint" ...
    std::string vein;    // may be empty
    int quality = 2;     // 1 best ... 4 (printed, not used)
    std::string line;    // core run whose reference line was used
    Eigen::Vector3d position = Eigen::Vector3d::Zero();
    std::optional<base::Angle> alpha;          // as measured
    std::optional<Eigen::Vector3d> pole;       // upward unit normal; nothing: unoriented (alpha alone)
    std::optional<base::Direction> lineation;  // from gamma
    bool from_core_angles = false;             // pole by alpha and beta (else by dip and dip direction)
};

// Places the structures rows: alpha and beta through the path's direction (they win over dip and dip direction; more than 10
// degrees apart is reported), warned of from a hole dip of 80 degrees, beta refused beyond 88. Rows of holes without a path, and
// rows without any angle (which the checks of the tables name), are left out.
base::Checked<std::vector<Orientation>> orient(const tables::Records& records, const std::vector<paths::Path>& paths);

const std::vector<const base::Check*>& checks();

}  // namespace selvage::orientation
