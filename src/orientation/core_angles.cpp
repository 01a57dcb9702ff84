#include "orientation/core_angles.h"

#include <Eigen/Geometry>

#include <algorithm>
#include <cassert>
#include <cmath>

namespace selvage::orientation {

namespace {

using base::Angle;
using Eigen::Vector3d;

// A pole nearer to the core's axis than this has no beta.
constexpr double square_to_core = 1e-9;

// Unit vector to the down-hole end of the ellipse.
Vector3d ellipse_end(const Vector3d& hole, const Vector3d& low, Angle beta) {
    return low * beta.cos() + hole.cross(low) * beta.sin();
}

}  // namespace

std::optional<Vector3d> low_side(const Vector3d& hole_direction) {
    if (std::hypot(hole_direction.x(), hole_direction.y()) <= Angle::degrees(steepest_for_beta).cos()) return std::nullopt;
    const Vector3d down = -Vector3d::UnitZ();
    return (down - hole_direction * hole_direction.dot(down)).normalized();
}

std::optional<Vector3d> pole_from_core_angles(const Vector3d& hole_direction, const CoreAngles& angles) {
    const std::optional<Vector3d> low = low_side(hole_direction);
    if (!low) return std::nullopt;
    return hole_direction * angles.alpha.sin() - ellipse_end(hole_direction, *low, angles.beta) * angles.alpha.cos();
}

std::optional<CoreAngles> core_angles_of(const Vector3d& hole_direction, const Vector3d& pole) {
    const std::optional<Vector3d> low = low_side(hole_direction);
    if (!low) return std::nullopt;
    const Vector3d facing = pole.dot(hole_direction) < 0.0 ? Vector3d(-pole) : pole;
    const Vector3d across = hole_direction * facing.dot(hole_direction) - facing;
    if (across.norm() < square_to_core) return CoreAngles{Angle::degrees(90.0), Angle()};
    const double beta = std::atan2(across.dot(hole_direction.cross(*low)), across.dot(*low));
    return CoreAngles{alpha_of(hole_direction, pole), base::Azimuth(Angle::radians(beta)).angle()};
}

Angle alpha_of(const Vector3d& hole_direction, const Vector3d& pole) {
    return Angle::radians(std::atan2(std::abs(hole_direction.dot(pole)), hole_direction.cross(pole).norm()));
}

std::optional<Vector3d> lineation_from_gamma(const Vector3d& hole_direction, const CoreAngles& angles, Angle gamma) {
    const std::optional<Vector3d> low = low_side(hole_direction);
    if (!low) return std::nullopt;
    const Vector3d end = ellipse_end(hole_direction, *low, angles.beta);
    const Vector3d long_axis = hole_direction * angles.alpha.cos() + end * angles.alpha.sin();
    const Vector3d line = long_axis * gamma.cos() + hole_direction.cross(end) * gamma.sin();
    return line.z() > 0.0 ? Vector3d(-line) : line;
}

double true_thickness(double length, Angle alpha) { return length * alpha.sin(); }

double horizontal_width(double true_thickness, Angle dip) {
    assert(dip.sin() > 0.0);
    return true_thickness / dip.sin();
}

Angle apparent_dip(const base::Attitude& attitude, base::Azimuth section_azimuth) {
    const Angle between = section_azimuth.angle() - attitude.dip_direction.angle();
    return Angle::radians(std::atan2(attitude.dip.sin() * between.cos(), attitude.dip.cos()));
}

}  // namespace selvage::orientation
