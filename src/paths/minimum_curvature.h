#pragma once

#include "base/angle.h"

#include <Eigen/Core>

// Minimum curvature: between two stations the hole is the circular arc that leaves the first along its direction and reaches the
// second along its own. Taylor & Mason (1972), SPE 3362; Sawaryn & Thorogood (2005), SPE 84246. The arc is written as a sum of
// the two directions with weights made of sin(x)/x, so that nothing is lost for a dogleg of any smallness, down to none at all.
namespace selvage::paths {

// The arc between two stations.
struct Arc {
    double length = 0.0;                                // m along the hole, positive
    Eigen::Vector3d start = -Eigen::Vector3d::UnitZ();  // unit vector down the hole at its beginning
    Eigen::Vector3d end = -Eigen::Vector3d::UnitZ();    // and at its end
    double dogleg = 0.0;                                // angle between the two, radians, 0 to pi
};

// The arc of two unit vectors. Stations that point exactly against each other have no such arc: the two are then at one place.
Arc arc_between(const Eigen::Vector3d& start, const Eigen::Vector3d& end, double length);

// Where the arc is after `share` (0 to 1) of its length, from its beginning, m.
Eigen::Vector3d displacement_on(const Arc& arc, double share);
// Unit vector down the hole there.
Eigen::Vector3d direction_on(const Arc& arc, double share);

// How `displacement_on(arc, share)` moves when the direction at the beginning turns by `start_turn` and that at the end by
// `end_turn` (both first-order changes of a unit vector, radians): its exact derivative, m.
Eigen::Vector3d displacement_change_on(const Arc& arc, double share, const Eigen::Vector3d& start_turn,
                                       const Eigen::Vector3d& end_turn);

// Angle between two directions, and per length: Angle a metre (multiply by 30 for the dogleg that tables print).
base::Angle dogleg_between(const base::Direction& from, const base::Direction& to);
base::Angle dogleg_per_metre(const base::Direction& from, const base::Direction& to, double length);
// Radius of the arc, m, of a dogleg per metre; infinite where the hole is straight.
double radius_of(base::Angle dogleg_per_metre);
// Ratio factor of the balanced tangential length, 2/dogleg tan(dogleg/2); 1 where straight.
double ratio_factor(base::Angle dogleg);

}  // namespace selvage::paths
