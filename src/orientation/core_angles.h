#pragma once

#include "base/angle.h"

#include <Eigen/Core>

#include <optional>

// Planes and lines measured on drill core, and what a plane looks like along a hole and on a section.
//
// With d the unit vector down the hole, r the unit vector at right angles to d that points to the hole's low side, and beta
// clockwise looking down the hole, e = r cos(beta) + (d x r) sin(beta) points to the down-hole end of the ellipse that the plane
// cuts on the core, and the plane's normal is n = d sin(alpha) - e cos(alpha). Plain vector geometry; checked in
// core_angles_test.
namespace selvage::orientation {

// Nearer to the vertical than this the low side is too badly defined for beta: a tilt of the reading of 0.3 degrees is there one
// of 8.6 degrees in beta.
constexpr double steepest_for_beta = 88.0;  // degrees of dip, down or up

// alpha: acute angle between core axis and plane, 0 to 90. beta: clockwise looking down the hole, from its low side to the
// down-hole end of the ellipse's long axis, 0 to 360.
struct CoreAngles {
    base::Angle alpha, beta;
};

// Unit vector at right angles to the hole that points to its low side; nothing from 88 degrees of dip on.
std::optional<Eigen::Vector3d> low_side(const Eigen::Vector3d& hole_direction);

// Pole of a plane, as a unit vector (east, north, up) on the side that faces down the hole. Nothing from 88 degrees of dip on.
std::optional<Eigen::Vector3d> pole_from_core_angles(const Eigen::Vector3d& hole_direction, const CoreAngles& angles);

// The core angles that a plane with this pole (of either sign) shows in a hole. beta is 0 where the plane is square to the core.
std::optional<CoreAngles> core_angles_of(const Eigen::Vector3d& hole_direction, const Eigen::Vector3d& pole);

// Acute angle between core axis and plane: 90 degrees is a right-angle hit. Good for a hole of any dip.
base::Angle alpha_of(const Eigen::Vector3d& hole_direction, const Eigen::Vector3d& pole);

// Lineation in a plane: gamma clockwise seen from up the hole, from the long axis' down-hole end. A unit vector that points down
// (a horizontal one as it comes). Nothing from 88 degrees of dip on.
std::optional<Eigen::Vector3d> lineation_from_gamma(const Eigen::Vector3d& hole_direction, const CoreAngles& angles,
                                                    base::Angle gamma);

// Thickness at right angles to the plane of a length along the hole, and across it in the horizontal. The dip must not be 0.
double true_thickness(double length, base::Angle alpha);
double horizontal_width(double true_thickness, base::Angle dip);

// Dip of a plane's trace on a vertical section, down towards the section's azimuth: tan(apparent) = tan(dip) cos(angle between
// dip direction and azimuth); negative where it rises that way. -90 to 90 degrees.
base::Angle apparent_dip(const base::Attitude& attitude, base::Azimuth section_azimuth);

}  // namespace selvage::orientation
