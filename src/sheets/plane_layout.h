#pragma once

#include "base/angle.h"
#include "base/plane.h"
#include "drawing/sheet.h"

#include <Eigen/Core>

#include <vector>

namespace selvage::sheets {

// A vein's mean plane laid flat: x along strike to the right, y up the dip, both in metres and true on the plane. The right-hand
// end is the more easterly one (of a north-south strike, the north), so one looks along an azimuth in [270, 90).
// Frames: layout (x, y) and world (east, north, up); layout_from_world drops a point square onto the plane.
struct PlaneLayout {
    Eigen::Vector3d origin = Eigen::Vector3d::Zero();
    Eigen::Vector3d along = Eigen::Vector3d::UnitX();   // unit, level
    Eigen::Vector3d up_dip = Eigen::Vector3d::UnitZ();  // unit, up
    Eigen::Vector3d normal = Eigen::Vector3d::UnitY();  // unit, the plane's own: to the hanging-wall side

    Eigen::Vector2d layout_from_world(const Eigen::Vector3d& point) const;
    Eigen::Vector3d world_from_layout(const Eigen::Vector2d& place) const;
    // Elevation of the plane at a height y up the dip, m relative, and back (rise is 1 for a vertical plane, sin(dip) else).
    double rise() const { return up_dip.z(); }
    double elevation_at(double y) const { return origin.z() + y * rise(); }
    double y_at(double elevation) const { return (elevation - origin.z()) / rise(); }

    base::Azimuth right_end() const;  // bearing of the right-hand end
    base::Azimuth looking() const;    // level direction in which one looks, square to the strike
    bool from_hanging_wall() const;   // the side on which one stands
    base::Angle dip() const;
};

PlaneLayout lay_out(const base::Plane& mean_plane);

// The layout of a parallel plane that lies `off` m along the normal, moved level across the strike: elevations stand at the same
// y. Of a plane that dips under 45 degrees, where that would move it by more than it lies off, dropped square.
PlaneLayout moved_off(PlaneLayout layout, double off);
bool reads_elevations_level(const PlaneLayout& layout);  // whether it is steep enough for that

// The outline in layout of a covariance's region that holds `share` of what a plane normal distribution gives: an ellipse of the
// covariance dropped square onto the plane. A closed ring of `count` points.
std::vector<Eigen::Vector2d> ellipse_on_plane(const PlaneLayout& layout, const Eigen::Vector3d& centre,
                                              const Eigen::Matrix3d& covariance, double share, std::size_t count);

// The part of a convex ring of the layout that lies behind all the planes, their normals pointing out of it: what a block's
// faults leave. Fewer than three places where nothing is left.
std::vector<Eigen::Vector2d> within_planes(const PlaneLayout& layout, std::vector<Eigen::Vector2d> ring,
                                           const std::vector<base::Plane>& planes);

}  // namespace selvage::sheets
