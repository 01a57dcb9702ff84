#include "base/angle.h"

#include <cassert>
#include <cmath>

namespace selvage::base {

namespace {

constexpr double pi = 3.14159265358979323846;
// Below this horizontal length a unit vector is vertical: its azimuth would be noise.
constexpr double horizontal_noise = 1e-9;

double wrapped_360(double degrees) {
    double wrapped = std::fmod(degrees, 360.0);
    if (wrapped < 0.0) wrapped += 360.0;
    return wrapped >= 360.0 ? 0.0 : wrapped;
}

}  // namespace

Angle Angle::degrees(double value) {
    Angle angle;
    angle.degrees_ = value;
    return angle;
}

Angle Angle::radians(double value) { return degrees(value * 180.0 / pi); }

double Angle::radians() const { return degrees_ * pi / 180.0; }

// The nearest multiple of 90 is taken out first, so that right angles are exact.
double Angle::sin() const {
    int quadrant = 0;
    const double rest = std::remquo(degrees_, 90.0, &quadrant) * pi / 180.0;
    switch (static_cast<unsigned>(quadrant) & 3U) {
        case 0U: return std::sin(rest);
        case 1U: return std::cos(rest);
        case 2U: return 0.0 - std::sin(rest);
        default: return -std::cos(rest);
    }
}

double Angle::cos() const { return degrees(degrees_ + 90.0).sin(); }

Azimuth::Azimuth(Angle from_north) : angle_(Angle::degrees(wrapped_360(from_north.degrees()))) {}

Angle turn_between(Azimuth from, Azimuth to) {
    const double turn = wrapped_360(to.degrees() - from.degrees());
    return Angle::degrees(turn > 180.0 ? turn - 360.0 : turn);
}

Eigen::Vector3d unit_vector(const Direction& direction) {
    const Angle azimuth = direction.azimuth.angle();
    const Angle dip = direction.dip.angle();
    return {dip.cos() * azimuth.sin(), dip.cos() * azimuth.cos(), 0.0 - dip.sin()};
}

Direction direction_of(const Eigen::Vector3d& vector) {
    assert(vector.norm() > 0.0);
    const double horizontal = std::hypot(vector.x(), vector.y());
    const Dip dip(Angle::radians(std::atan2(-vector.z(), horizontal)));
    if (horizontal < horizontal_noise * vector.norm()) return {Azimuth(), dip};
    return {Azimuth(Angle::radians(std::atan2(vector.x(), vector.y()))), dip};
}

Eigen::Vector3d upward_normal(const Attitude& attitude) {
    const Angle azimuth = attitude.dip_direction.angle();
    return {attitude.dip.sin() * azimuth.sin(), attitude.dip.sin() * azimuth.cos(), attitude.dip.cos()};
}

Attitude attitude_of_normal(const Eigen::Vector3d& normal) {
    assert(normal.norm() > 0.0);
    const Eigen::Vector3d up = normal.z() < 0.0 ? Eigen::Vector3d(-normal) : normal;
    const double horizontal = std::hypot(up.x(), up.y());
    const Angle dip = Angle::radians(std::atan2(horizontal, up.z()));
    if (horizontal < horizontal_noise * up.norm()) return {Angle(), Azimuth()};
    return {dip, Azimuth(Angle::radians(std::atan2(up.x(), up.y())))};
}

Azimuth strike_of(const Attitude& attitude) { return Azimuth::degrees(attitude.dip_direction.degrees() - 90.0); }

}  // namespace selvage::base
