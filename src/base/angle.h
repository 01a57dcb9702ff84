#pragma once

#include <Eigen/Core>

// Angles as types. A bare double holds an angle only inside a formula; everywhere else the unit is in the type.
namespace selvage::base {

// An angle of any size. Sine and cosine are exact at whole multiples of a right angle given in degrees.
class Angle {
public:
    Angle() = default;
    static Angle degrees(double value);
    static Angle radians(double value);
    double degrees() const { return degrees_; }
    double radians() const;
    double sin() const;
    double cos() const;
    friend Angle operator+(Angle a, Angle b) { return degrees(a.degrees_ + b.degrees_); }
    friend Angle operator-(Angle a, Angle b) { return degrees(a.degrees_ - b.degrees_); }
    friend Angle operator-(Angle a) { return degrees(-a.degrees_); }
    friend Angle operator*(double factor, Angle a) { return degrees(factor * a.degrees_); }
    friend bool operator==(Angle a, Angle b) { return a.degrees_ == b.degrees_; }
    friend bool operator<(Angle a, Angle b) { return a.degrees_ < b.degrees_; }

private:
    double degrees_ = 0.0;
};

// Clockwise from grid north (once read), always in [0, 360).
class Azimuth {
public:
    Azimuth() = default;
    explicit Azimuth(Angle from_north);
    static Azimuth degrees(double value) { return Azimuth(Angle::degrees(value)); }
    double degrees() const { return angle_.degrees(); }
    Angle angle() const { return angle_; }

private:
    Angle angle_;
};

// Positive downwards from the horizontal, -90 to 90.
class Dip {
public:
    Dip() = default;
    explicit Dip(Angle down) : angle_(down) {}
    static Dip degrees(double value) { return Dip(Angle::degrees(value)); }
    double degrees() const { return angle_.degrees(); }
    Angle angle() const { return angle_; }

private:
    Angle angle_;
};

// The shortest turn from one azimuth to another, in (-180, 180] degrees, clockwise positive.
Angle turn_between(Azimuth from, Azimuth to);

// A line pointing into the ground (dip > 0) or out of it: a hole, a lineation.
struct Direction {
    Azimuth azimuth;
    Dip dip;
};

// Unit vector (east, north, up) of a direction.
Eigen::Vector3d unit_vector(const Direction& direction);
// The direction of a vector (east, north, up) of any length but zero. A vertical one has azimuth 0.
Direction direction_of(const Eigen::Vector3d& vector);

// A plane's attitude; dip 0 to 90. dip_direction of a horizontal plane is 0.
struct Attitude {
    Angle dip;
    Azimuth dip_direction;
};

// Upward unit normal of an attitude (a vertical plane's points to its dip direction).
Eigen::Vector3d upward_normal(const Attitude& attitude);
// Attitude of the plane with this normal, of any sign and length but zero.
Attitude attitude_of_normal(const Eigen::Vector3d& normal);
// Strike with the dip to its right: dip_direction - 90.
Azimuth strike_of(const Attitude& attitude);

}  // namespace selvage::base
