#pragma once

#include "base/angle.h"
#include "planning/hole_points.h"
#include "settings/project.h"
#include "site/site.h"
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
    site::Ground ground;     // not known: holes start at pads alone
    double clearance = 0.0;  // m, from the holes here, by the rule of near_holes
    const std::vector<HolePoints>* holes = nullptr;
    const site::Property* property = nullptr;  // which holes keep within; those of a pad outside it from the pad on
    const site::Workings* workings = nullptr;  // from which they keep the clearance too
};

// The hole of least cost for the sine of its angle with the vein, from a pad if one serves, else from the ground. `normal`: unit
// normal of the vein at the place. Nothing where none meets the vein at `angle_min` or more, clear of the other holes and
// workings, within the property.
std::optional<Reach> best_reach(const Eigen::Vector3d& place, const Eigen::Vector3d& normal, const ReachRules& rules);

// Of the pad nearest to the place, in words, the first limit that a hole from it does not keep: "Pad A, the nearest: too far for
// the rig". Empty where there is no pad, or that one serves.
std::string why_no_pad(const Eigen::Vector3d& place, const Eigen::Vector3d& normal, const ReachRules& rules);

}  // namespace selvage::planning
