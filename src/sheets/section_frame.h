#pragma once

#include "base/angle.h"
#include "base/plane.h"
#include "drawing/sheet.h"

#include <Eigen/Core>

#include <optional>

// A vertical section as a plane that one looks at, and how it lies on paper.
namespace selvage::sheets {

// Right is the direction from left to right on paper, horizontal; away is the way one looks. Points relative to the project
// origin, m.
struct SectionFrame {
    Eigen::Vector3d origin = Eigen::Vector3d::Zero();  // distance 0, on the plane
    base::Azimuth right_azimuth;
    Eigen::Vector3d right = Eigen::Vector3d::UnitX();
    Eigen::Vector3d away = Eigen::Vector3d::UnitY();

    base::Azimuth looking() const { return base::Azimuth(right_azimuth.angle() - base::Angle::degrees(90.0)); }
    double distance(const Eigen::Vector3d& point) const { return right.dot(point - origin); }
    double offset(const Eigen::Vector3d& point) const { return away.dot(point - origin); }  // positive: behind the section
    Eigen::Vector3d at(double distance, double up) const;                                   // up: relative elevation
    base::Plane plane() const { return {origin, away}; }
};

// A section along a line of this azimuth (either way round). The right-hand end is the more easterly one; of an exact
// north-south line it is the north one, so that one looks along an azimuth in [270, 90). `looking` turns it round where it is
// given and points the other way.
SectionFrame section_frame(base::Azimuth line_azimuth, const Eigen::Vector3d& origin,
                           std::optional<base::Azimuth> looking = std::nullopt);

// The frame laid on a window to scale.
struct SectionView {
    SectionFrame frame;
    drawing::Box window;
    double left_distance = 0.0;  // distance at the window's left edge, m
    double bottom_up = 0.0;      // relative elevation at its lower edge, m
    double metres_per_mm = 1.0;

    drawing::Point paper(const Eigen::Vector3d& point) const;
    drawing::Point paper(double distance, double up) const;
    double distance_at(double x_mm) const { return left_distance + (x_mm - window.left) * metres_per_mm; }
    double up_at(double y_mm) const { return bottom_up + (y_mm - window.bottom) * metres_per_mm; }
};

// Apparent dip of a plane on the section, as the slope on paper of its line of intersection: a unit vector (right, up), its up
// part never positive. Nothing where plane and section are parallel within 1 degree.
std::optional<Eigen::Vector2d> apparent_dip_line(const Eigen::Vector3d& plane_normal, const SectionFrame& frame);

}  // namespace selvage::sheets
