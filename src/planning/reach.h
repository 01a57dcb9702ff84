#pragma once

#include "base/angle.h"
#include "base/plane.h"
#include "settings/project.h"
#include "tables/records.h"

#include <Eigen/Core>

#include <optional>
#include <string>
#include <vector>

// Straight holes that reach a place on a vein within what pads and rig allow.
namespace selvage::planning {

struct Reach {
    std::string pad;  // empty: from the ground, where no pad serves
    Eigen::Vector3d collar = Eigen::Vector3d::Zero();
    base::Direction direction;  // at the collar; the hole runs straight
    double depth = 0.0;         // m down the hole to the place
    double length = 0.0;        // m, with the tail of foot wall
    base::Angle angle;          // acute, between hole and vein
    double cost = 0.0;          // in the rig's money
};

struct ReachRules {
    settings::Rig rig;
    base::Angle angle_min;
    double tail = 15.0;  // m
    const std::vector<tables::Pad>* pads = nullptr;
    std::optional<base::Plane> ground;  // normal up; nothing: holes start at pads alone
};

// The hole of least cost for the sine of its angle with the vein, from a pad if one serves, else from the ground. `normal`: unit
// normal of the vein at the place. Nothing where none meets the vein at `angle_min` or more.
std::optional<Reach> best_reach(const Eigen::Vector3d& place, const Eigen::Vector3d& normal, const ReachRules& rules);

}  // namespace selvage::planning
