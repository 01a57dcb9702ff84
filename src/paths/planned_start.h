#pragma once

#include "base/angle.h"
#include "tables/records.h"

#include <Eigen/Core>

#include <optional>

namespace selvage::paths {

// Which way a hole was meant to go.
struct PlannedStart {
    base::Direction direction;
    bool aimed = false;        // what the collar row lacks is the direction of the target
    bool from_parent = false;  // a daughter without a plan of its own goes on as its parent does
};

// The collar row's azimuth and dip; what is lacking there is taken from the straight line to the target, else from the parent's
// direction at the kick-off. A plan from 89.5 degrees needs no azimuth. Nothing where none of these is given.
//   start         collar or kick-off
//   parent        of a daughter: its parent's direction there
//   measured_dip  of a hole with dips alone: stands for a dip that was not planned
std::optional<PlannedStart> planned_start(const tables::Collar& collar, const Eigen::Vector3d& start,
                                          const std::optional<base::Direction>& parent,
                                          const std::optional<base::Dip>& measured_dip);

}  // namespace selvage::paths
