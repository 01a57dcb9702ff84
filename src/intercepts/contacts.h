#pragma once

#include "intercepts/intercept.h"
#include "orientation/orient.h"

#include <Eigen/Core>

#include <optional>
#include <string>
#include <vector>

// The contacts measured at an intercept, and their mean.
namespace selvage::intercepts {

// Mean of axes (unit vectors whose sign says nothing): the principal axis of the sum of their outer products, upward, to the
// east where level. Nothing for none. Source: Fisher, Lewis & Embleton 1987, Statistical analysis of spherical data, 3.2.4
// (from memory).
std::optional<Eigen::Vector3d> mean_axis(const std::vector<Eigen::Vector3d>& axes);

// Puts the contacts of one hole into its intercepts of one vein (`met`): poles, their mean, mean alpha of all, oriented or not.
// A contact that names the vein goes to the nearest of them, one that names none to those within 0.5 m of it.
void add_contacts(const std::vector<const orientation::Orientation*>& of_hole, const std::vector<std::string>& contact_kinds,
                  std::vector<Intercept>& met);

}  // namespace selvage::intercepts
