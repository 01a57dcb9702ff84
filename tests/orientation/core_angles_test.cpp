#include "orientation/core_angles.h"

#include "support/attitudes.h"

#include <gtest/gtest.h>
#include <Eigen/Geometry>

#include <array>
#include <cmath>

namespace selvage::orientation {
namespace {

using base::Angle;
using base::Attitude;
using base::Azimuth;
using base::Dip;
using base::Direction;
using Eigen::Vector3d;

using test::line;
Attitude plane(double dip_direction, double dip) { return {Angle::degrees(dip), Azimuth::degrees(dip_direction)}; }
Vector3d normal(double dip_direction, double dip) { return base::upward_normal(plane(dip_direction, dip)); }
// Of a pole given as a line that plunges.
Attitude plane_of_pole(double trend, double plunge) { return base::attitude_of_normal(line(trend, plunge)); }
Vector3d downward(const Vector3d& v) { return v.z() > 0.0 ? Vector3d(-v) : v; }
double angle_between_axes(const Vector3d& a, const Vector3d& b) {
    return Angle::radians(std::atan2(a.cross(b).norm(), std::abs(a.dot(b)))).degrees();
}
CoreAngles core(double alpha, double beta) { return {Angle::degrees(alpha), Angle::degrees(beta)}; }

void expect_plane(const Attitude& attitude, double dip_direction, double dip, double tolerance) {
    EXPECT_NEAR(attitude.dip.degrees(), dip, tolerance);
    EXPECT_NEAR(base::turn_between(attitude.dip_direction, Azimuth::degrees(dip_direction)).degrees(), 0.0, tolerance);
}

void expect_line(const Vector3d& v, double trend, double plunge, double tolerance) {
    const Direction direction = base::direction_of(downward(v));
    EXPECT_NEAR(direction.dip.degrees(), plunge, tolerance);
    EXPECT_NEAR(base::turn_between(direction.azimuth, Azimuth::degrees(trend)).degrees(), 0.0, tolerance);
}

// Hudson & Harrison, Engineering Rock Mechanics (1997), App. B p. 436: planes 266/36 and 146/59 meet in 219/26.
TEST(Planes, IntersectionOfTwoPlanes) {
    expect_line(normal(266, 36).cross(normal(146, 59)).normalized(), 218.759458, 26.255542, 1e-6);
}

// Brady & Brown, Rock Mechanics for Underground Mining, 3rd ed., App. A.5 fig. A.4: apparent dip 40 SE on a wall trending 140,
// strike 020: true dip 44 to 110. The plane through the trace and the strike line; the room's apparent dip must give the 40 back.
TEST(Planes, TrueDipFromApparentDipAndStrike) {
    const Attitude attitude = base::attitude_of_normal(line(140, 40).cross(line(20, 0)));
    expect_plane(attitude, 110, 44.095313, 1e-6);
    EXPECT_NEAR(apparent_dip(attitude, Azimuth::degrees(140)).degrees(), 40.0, 1e-9);
}

// studylib.net doc 6673877 "Determine true dip ... two apparent dips": 20 towards 296 and 30 towards 046: strike 090, dip 40 N.
TEST(Planes, TrueDipFromTwoApparentDips) {
    const Attitude attitude = base::attitude_of_normal(line(296, 20).cross(line(46, 30)));
    expect_plane(attitude, 0.018987, 39.721270, 1e-6);
    EXPECT_NEAR(apparent_dip(attitude, Azimuth::degrees(296)).degrees(), 20.0, 1e-9);
    EXPECT_NEAR(apparent_dip(attitude, Azimuth::degrees(46)).degrees(), 30.0, 1e-9);
}

// SIG2003 Structural geology, Practical 5 answers, q. 1: strike/dip 012/78E, 330/45SW, 245/79SE have poles 282/12, 060/45,
// 335/11.
TEST(Planes, PolesOfPlanes) {
    expect_line(normal(102, 78), 282, 12, 1e-9);
    expect_line(normal(240, 45), 60, 45, 1e-9);
    expect_line(normal(155, 79), 335, 11, 1e-9);
}

// As above, q. 2: poles 345/44, 123/78, 256/56 have strike/dip 075/46SE, 033/12NW, 166/34NE.
TEST(Planes, PlanesOfPoles) {
    expect_plane(plane_of_pole(345, 44), 165, 46, 1e-9);
    expect_plane(plane_of_pole(123, 78), 303, 12, 1e-9);
    expect_plane(plane_of_pole(256, 56), 76, 34, 1e-9);
    EXPECT_NEAR(base::strike_of(plane_of_pole(345, 44)).degrees(), 75.0, 1e-9);
    EXPECT_NEAR(base::strike_of(plane_of_pole(256, 56)).degrees(), 346.0, 1e-9);  // the source's 166, its other end
}

// As above, q. 3 and 4: line 325/60 and plane 220/40SE, line 237/10 and plane 010/80E: 13 and 42 degrees from line to pole.
TEST(Planes, AngleOfALineToAPole) {
    EXPECT_NEAR(angle_between_axes(line(325, 60), normal(130, 40)), 13.130160, 1e-6);
    EXPECT_NEAR(angle_between_axes(line(237, 10), normal(100, 80)), 42.315042, 1e-6);
    EXPECT_NEAR(alpha_of(line(325, 60), normal(130, 40)).degrees(), 76.869840, 1e-6);
    EXPECT_NEAR(alpha_of(line(237, 10), normal(100, 80)).degrees(), 47.684958, 1e-6);
}

// "Three-Point Problem Solver" sheet, example 3 (scribd 339649856): elevations 700, 500 (azimuth 247, 4,100 away), 200 (198,
// 5,160): strike 276.566, dip 5.646, pole 6.566/84.354.
TEST(Planes, PlaneThroughThreePoints) {
    const Vector3d high(0, 0, 700), middle = 4100.0 * line(247, 0) + Vector3d(0, 0, 500),
                                    low = 5160.0 * line(198, 0) + Vector3d(0, 0, 200);
    const Vector3d pole = (middle - high).cross(low - high).normalized();
    expect_plane(base::attitude_of_normal(pole), 186.565845, 5.645990, 1e-6);
    expect_line(pole, 6.565845, 84.354010, 1e-6);
}

// thecivilengineer.org calculation example 2321: vertical hole, bed dips 43, 2 m of core.
TEST(Thickness, OfABedInAVerticalHole) {
    const Angle alpha = alpha_of(-Vector3d::UnitZ(), normal(77, 43));
    EXPECT_NEAR(true_thickness(2.0, alpha), 1.462707, 1e-6);
    EXPECT_NEAR(1.0 / Angle::degrees(43).sin() * Angle::degrees(43).cos(), 1.072369, 1e-6);  // gradient 1 in 1.072
}

// Inputs: Hudson & Harrison (1997), App. B p. 438: hole 305/65, plane 145/73, core then turned 55 degrees clockwise looking down.
TEST(CoreAngles, PlaneInPlaceAndInTurnedCore) {
    const Vector3d hole = line(305, 65);
    const CoreAngles angles = *core_angles_of(hole, normal(145, 73));
    EXPECT_NEAR(angles.alpha.degrees(), 40.147479, 1e-6);
    EXPECT_NEAR(angles.beta.degrees(), 25.333876, 1e-6);
    const CoreAngles turned{angles.alpha, angles.beta + Angle::degrees(55)};
    EXPECT_NEAR(turned.beta.degrees(), 80.333876, 1e-6);
    expect_plane(base::attitude_of_normal(*pole_from_core_angles(hole, turned)), 187.707308, 57.987294, 1e-6);
}

struct Case {
    double azimuth, dip, alpha, beta, plane_dip_direction, plane_dip;
};

// From the vector definition (see the header); planes to four decimals.
TEST(CoreAngles, PlanesFromAlphaAndBeta) {
    const Case cases[] = {{90, 60, 90, 0, 270, 30},
                          {90, 60, 90, 137, 270, 30},
                          {90, 60, 60, 0, 270, 60},
                          {90, 60, 60, 90, 319.1066, 41.4096},
                          {90, 60, 60, 270, 220.8934, 41.4096},
                          {315, 70, 25, 40, 171.1666, 80.8119},
                          {20, -30, 55, 250, 346.2777, 76.1321}};
    for (const Case& one : cases) {
        const Vector3d pole = *pole_from_core_angles(line(one.azimuth, one.dip), core(one.alpha, one.beta));
        EXPECT_NEAR(pole.norm(), 1.0, 1e-12);
        EXPECT_GE(pole.dot(line(one.azimuth, one.dip)), 0.0);
        expect_plane(base::attitude_of_normal(pole), one.plane_dip_direction, one.plane_dip, 1e-4);
    }
}

TEST(CoreAngles, AHorizontalPlaneHasNoNoiseForADipDirection) {
    const Attitude attitude = base::attitude_of_normal(*pole_from_core_angles(line(90, 60), core(60, 180)));
    EXPECT_NEAR(attitude.dip.degrees(), 0.0, 1e-6);
    EXPECT_EQ(attitude.dip_direction.degrees(), 0.0);
}

// From the vector definition.
TEST(CoreAngles, LineationsFromGamma) {
    expect_line(*lineation_from_gamma(line(315, 70), core(25, 40), Angle::degrees(30)), 251.4058, 46.3459, 1e-4);
    expect_line(*lineation_from_gamma(line(90, 60), core(60, 0), Angle::degrees(0)), 270, 60, 1e-9);
    const Vector3d level = *lineation_from_gamma(line(90, 60), core(60, 0), Angle::degrees(90));
    EXPECT_NEAR(level.z(), 0.0, 1e-12);
    EXPECT_NEAR(std::abs(level.y()), 1.0, 1e-12);
}

TEST(CoreAngles, AnglesOfAPoleGiveThePoleBack) {
    for (const double dip : {-70.0, -30.0, 0.0, 45.0, 79.0, 87.9})
        for (const double beta : {0.0, 33.0, 90.0, 180.0, 271.0, 359.0}) {
            const Vector3d hole = line(213, dip);
            const Vector3d pole = *pole_from_core_angles(hole, core(37, beta));
            const CoreAngles angles = *core_angles_of(hole, -pole);
            EXPECT_NEAR(angles.alpha.degrees(), 37.0, 1e-9);
            EXPECT_NEAR(base::turn_between(Azimuth(angles.beta), Azimuth::degrees(beta)).degrees(), 0.0, 1e-9);
        }
}

TEST(CoreAngles, BetaIsRefusedBeyond88Degrees) {
    EXPECT_FALSE(pole_from_core_angles(line(10, 88.01), core(40, 10)));
    EXPECT_FALSE(pole_from_core_angles(line(10, -88.01), core(40, 10)));
    EXPECT_TRUE(pole_from_core_angles(line(10, 87.99), core(40, 10)));
    EXPECT_FALSE(core_angles_of(line(10, 90), normal(10, 40)));
    EXPECT_FALSE(lineation_from_gamma(line(10, 90), core(40, 10), Angle::degrees(10)));
}

// Closed form: true thickness = length x sin(alpha), horizontal width = true thickness / sin(dip).
TEST(Thickness, OfLengthsAlongHoles) {
    const struct {
        double azimuth, dip, plane_dip_direction, plane_dip, length, alpha, thickness, width;
    } cases[] = {{90, 50, 270, 80, 3.0, 50.0, 2.298133329, 2.333585740},
                 {135, 60, 300, 75, 2.4, 43.681601, 1.657560526, 1.716032930}};
    for (const auto& one : cases) {
        const Angle alpha = alpha_of(line(one.azimuth, one.dip), normal(one.plane_dip_direction, one.plane_dip));
        EXPECT_NEAR(alpha.degrees(), one.alpha, 1e-6);
        EXPECT_NEAR(true_thickness(one.length, alpha), one.thickness, 1e-8);
        EXPECT_NEAR(horizontal_width(true_thickness(one.length, alpha), Angle::degrees(one.plane_dip)), one.width, 1e-8);
    }
}

// tan(apparent) = tan(dip) sin(angle strike to section); printed to the degree or minute in structural-geology texts (from
// memory).
TEST(Sections, ApparentDips) {
    const std::array<double, 7> angles = {10, 15, 30, 45, 60, 75, 80};
    const struct {
        double dip;
        std::array<double, 7> apparent;
    } rows[] = {{30, {5.73, 8.50, 16.10, 22.21, 26.57, 29.15, 29.62}},
                {60, {16.74, 24.15, 40.89, 50.77, 56.31, 59.13, 59.62}},
                {80, {44.56, 55.73, 70.57, 76.00, 78.49, 79.65, 79.85}}};
    for (const auto& row : rows)
        for (std::size_t i = 0; i < angles.size(); ++i) {
            EXPECT_NEAR(apparent_dip(plane(90, row.dip), Azimuth::degrees(angles[i])).degrees(), row.apparent[i], 0.005);
            EXPECT_NEAR(apparent_dip(plane(90, row.dip), Azimuth::degrees(180.0 + angles[i])).degrees(), -row.apparent[i], 0.005);
        }
    EXPECT_NEAR(apparent_dip(plane(90, 90), Azimuth::degrees(90)).degrees(), 90.0, 1e-12);
}

// Closed form: plane 120/70 on a vertical section trending 075.
TEST(Sections, TraceOnASection) {
    const double plunge = apparent_dip(plane(120, 70), Azimuth::degrees(75)).degrees();
    EXPECT_NEAR(plunge, 62.763687, 1e-6);
    EXPECT_NEAR(100.0 / Angle::degrees(plunge).sin(), 112.469937, 1e-5);
}

}  // namespace
}  // namespace selvage::orientation
