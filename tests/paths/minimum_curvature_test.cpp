#include "paths/minimum_curvature.h"

#include "paths/path.h"

#include <gtest/gtest.h>
#include <Eigen/Geometry>

#include <cmath>
#include <vector>

namespace selvage::paths {
namespace {

using base::Angle;
using base::Azimuth;
using base::Dip;
using base::Direction;
using Eigen::Vector3d;

// Petroleum inclination is from the vertical.
Direction inclined(double inclination, double azimuth) { return {Azimuth::degrees(azimuth), Dip::degrees(90.0 - inclination)}; }
Direction dipping(double azimuth, double dip) { return {Azimuth::degrees(azimuth), Dip::degrees(dip)}; }

Arc arc_of(const Direction& from, const Direction& to, double length) {
    return arc_between(base::unit_vector(from), base::unit_vector(to), length);
}

struct Reading {
    double depth;
    Direction direction;
};

Path path_through(const std::vector<Reading>& readings) {
    Path path;
    for (const Reading& reading : readings) {
        Station station;
        station.depth = reading.depth;
        station.direction = reading.direction;
        station.measured = true;
        path.stations.push_back(station);
    }
    settle(path.stations);
    return path;
}

void expect_near(const Vector3d& point, double north, double east, double down, double tolerance) {
    EXPECT_NEAR(point.y(), north, tolerance);
    EXPECT_NEAR(point.x(), east, tolerance);
    EXPECT_NEAR(-point.z(), down, tolerance);
}

// drillingformulas.com "Minimum Curvature Method", after Lapeyrouse, Formulas and Calculations for Drilling, Production and
// Workover, 2nd ed.: dogleg 12.95 degrees, ratio factor 1.00408, N 27.22, E 19.45, TVD 94.01; recomputed to more digits.
TEST(MinimumCurvature, IntervalOfLapeyrouse) {
    const Direction from = inclined(15, 20), to = inclined(25, 45);
    EXPECT_NEAR(dogleg_between(from, to).degrees(), 12.951650724128, 1e-9);
    EXPECT_NEAR(ratio_factor(dogleg_between(from, to)), 1.004280048847, 1e-11);
    expect_near(displacement_on(arc_of(from, to, 100.0), 1.0), 27.218328573, 19.450773746, 94.012343233, 1e-8);
}

// Closed form: spherical interpolation of the directions. The chord at 50 would give N 13.609.
TEST(MinimumCurvature, PointsBetweenStationsLieOnTheArcNotOnTheChord) {
    const Path path = path_through({{3500, inclined(15, 20)}, {3600, inclined(25, 45)}});
    expect_near(position_at(path, 3530), 7.571154615, 3.617981496, 28.796579111, 1e-8);
    expect_near(position_at(path, 3550), 12.913099486, 7.093648276, 47.752191447, 1e-8);
    expect_near(position_at(path, 3575), 19.902716982, 12.622577120, 71.106203430, 1e-8);
    const Direction at_30 = base::direction_of(direction_at(path, 3530)), at_75 = base::direction_of(direction_at(path, 3575));
    EXPECT_NEAR(90.0 - at_30.dip.degrees(), 17.615216, 1e-6);
    EXPECT_NEAR(at_30.azimuth.degrees(), 30.278802, 1e-6);
    EXPECT_NEAR(90.0 - at_75.dip.degrees(), 22.226508, 1e-6);
    EXPECT_NEAR(at_75.azimuth.degrees(), 40.821070, 1e-6);
    const Direction at_50 = base::direction_of(direction_at(path, 3550));
    EXPECT_NEAR(90.0 - at_50.dip.degrees(), 19.587942, 1e-6);
    EXPECT_NEAR(at_50.azimuth.degrees(), 35.550375, 1e-6);
}

// ISCWSA test well 1 (Williamson 2000, SPE 67616), from memory: N, E, TVD to two decimals; recomputed. The azimuth of the station
// at 1200 m, where the well is vertical, must not matter.
TEST(MinimumCurvature, NorthSeaTestWell) {
    for (const double vertical_azimuth : {0.0, 123.0}) {
        const Path path = path_through({{0, inclined(0, 0)},
                                        {1200, inclined(0, vertical_azimuth)},
                                        {2100, inclined(60, 75)},
                                        {5100, inclined(60, 75)},
                                        {5400, inclined(90, 75)},
                                        {8000, inclined(90, 75)}});
        expect_near(path.stations[2].position, 111.2193, 415.0760, 1944.2940, 5e-5);
        expect_near(path.stations[3].position, 783.6509, 2924.6250, 3444.2940, 6e-5);
        expect_near(path.stations[4].position, 857.7971, 3201.3423, 3521.0558, 6e-5);
        expect_near(path.stations[5].position, 1530.7266, 5712.7495, 3521.0558, 6e-5);
    }
}

// Inputs: drillingformulas.com "Dogleg Severity Calculation"; the severity printed there is a misprint and not used here.
// Recomputed.
TEST(MinimumCurvature, IntervalOfTheSeverityExample) {
    const Direction from = inclined(45, 130), to = inclined(52, 139);
    EXPECT_NEAR(dogleg_between(from, to).degrees(), 9.705938787, 1e-8);
    EXPECT_NEAR(100.0 * dogleg_per_metre(from, to, 95.0).degrees(), 10.216777671, 1e-8);
    expect_near(displacement_on(arc_of(from, to, 95.0), 1.0), -49.958366704, 50.406797032, 62.982178592, 1e-6);
}

// Closed form: a quarter circle of radius 100.
TEST(MinimumCurvature, QuarterCircle) {
    const Path path = path_through({{0, inclined(0, 0)}, {50.0 * M_PI, inclined(90, 0)}});
    expect_near(position_at(path, 50.0 * M_PI), 100.0, 0.0, 100.0, 1e-9);
    expect_near(position_at(path, 25.0 * M_PI), 29.289321881, 0.0, 70.710678119, 1e-9);
}

// Reference calculation in numpy, no publication.
TEST(MinimumCurvature, MiningHole) {
    const std::vector<Reading> readings = {{0, dipping(140, 60)},
                                           {50, dipping(142, 59)},
                                           {100, dipping(145, 57)},
                                           {150, dipping(149, 55.5)},
                                           {210, dipping(152, 53)}};
    const Path path = path_through(readings);
    expect_near(path.stations[1].position, -19.722960, 15.962895, 43.082038, 1e-6);
    expect_near(path.stations[2].position, -41.026432, 31.702533, 85.485008, 1e-6);
    expect_near(path.stations[3].position, -64.321858, 46.808110, 127.062510, 1e-6);
    expect_near(path.stations[4].position, -94.835357, 64.039861, 175.756880, 1e-6);
    const double doglegs[] = {1.424798508, 2.554346550, 2.680479177, 3.052598514};
    const double per_30[] = {0.8548791, 1.5326079, 1.6082875, 1.5262993};
    for (std::size_t i = 0; i < 4; ++i) {
        const Direction from = readings[i].direction, to = readings[i + 1].direction;
        EXPECT_NEAR(dogleg_between(from, to).degrees(), doglegs[i], 1e-8);
        EXPECT_NEAR(30.0 * dogleg_per_metre(from, to, readings[i + 1].depth - readings[i].depth).degrees(), per_30[i], 1e-7);
    }
    expect_near(position_at(path, 125), -52.428117, 39.384523, 106.364666, 1e-6);
    const Direction at_125 = base::direction_of(direction_at(path, 125));
    EXPECT_NEAR(at_125.azimuth.degrees(), 147.039199, 1e-6);
    EXPECT_NEAR(at_125.dip.degrees(), 56.266120, 1e-6);
}

// Closed form.
TEST(MinimumCurvature, RadiusOfThreeDegreesIn30Metres) {
    EXPECT_NEAR(radius_of(Angle::degrees(3.0 / 30.0)), 572.957795, 1e-6);
    EXPECT_TRUE(std::isinf(radius_of(Angle())));
}

TEST(MinimumCurvature, StraightHoleKeepsItsDirection) {
    const Direction direction = dipping(37, 52);
    EXPECT_EQ(ratio_factor(dogleg_between(direction, direction)), 1.0);
    const Path path = path_through({{0, direction}, {30, direction}, {60, direction}});
    EXPECT_LT((position_at(path, 47.3) - 47.3 * base::unit_vector(direction)).norm(), 1e-12);
    EXPECT_LT((direction_at(path, 47.3) - base::unit_vector(direction)).norm(), 1e-15);
}

TEST(MinimumCurvature, RunsStraightOnPastTheLastStation) {
    const Path path = path_through({{0, dipping(10, 60)}, {40, dipping(14, 58)}});
    EXPECT_LT((position_at(path, 100) - position_at(path, 40) - 60.0 * base::unit_vector(dipping(14, 58))).norm(), 1e-12);
}

// Series of the arc for small doglegs: at the end, along length (1 - dogleg^2/6), across length (dogleg/2 - dogleg^3/24).
TEST(MinimumCurvature, NothingIsLostForTinyDoglegs) {
    for (const double dogleg : {1e-4, 1e-8}) {
        const Arc arc = arc_between(Vector3d::UnitX(), {std::cos(dogleg), std::sin(dogleg), 0.0}, 1000.0);
        EXPECT_NEAR(arc.dogleg / dogleg, 1.0, 1e-8);
        const Vector3d end = displacement_on(arc, 1.0);
        EXPECT_NEAR(end.x(), 1000.0 * (1.0 - dogleg * dogleg / 6.0), 1e-11);
        EXPECT_NEAR(end.y() / (1000.0 * dogleg / 2.0), 1.0, 1e-8);
        EXPECT_NEAR(displacement_on(arc, 0.5).y() / (1000.0 * dogleg / 8.0), 1.0, 1e-7);
    }
}

TEST(MinimumCurvature, UpHolesRise) {
    const Path path = path_through({{0, dipping(20, -30)}, {50, dipping(22, -32)}});
    EXPECT_GT(position_at(path, 50).z(), 25.0);
    EXPECT_NEAR(base::direction_of(direction_at(path, 25)).dip.degrees(), -31.0, 0.01);
}

TEST(MinimumCurvature, AzimuthCrossesNorthTheShortWay) {
    EXPECT_NEAR(dogleg_between(dipping(359, 0), dipping(1, 0)).degrees(), 2.0, 1e-9);
    const Path path = path_through({{0, dipping(359, 0)}, {100, dipping(1, 0)}});
    EXPECT_NEAR(position_at(path, 100).x(), 0.0, 1e-9);
    EXPECT_GT(position_at(path, 100).y(), 99.9);
}

// The derivative against central differences, for doglegs from none to large.
TEST(MinimumCurvature, ChangeOfDisplacementIsItsDerivative) {
    constexpr double step = 1e-5;
    const auto turned = [](const Vector3d& from, const Vector3d& by, double size) {
        return Vector3d((from + size * by).normalized());
    };
    for (const double dogleg : {0.0, 1e-6, 0.01, 0.15, 0.25, 1.0, 2.0}) {
        const Vector3d start = Vector3d(0.3, 0.5, -0.8).normalized();
        const Vector3d across = start.unitOrthogonal();
        const Vector3d end = std::cos(dogleg) * start + std::sin(dogleg) * across;
        const Vector3d start_turn = start.cross(Vector3d(0.2, -0.4, 0.7)), end_turn = end.cross(Vector3d(-0.5, 0.1, 0.6));
        for (const double share : {0.1, 0.5, 1.0}) {
            const auto at = [&](double size) {
                return displacement_on(arc_between(turned(start, start_turn, size), turned(end, end_turn, size), 30.0), share);
            };
            const Vector3d expected = (at(step) - at(-step)) / (2.0 * step);
            const Vector3d change = displacement_change_on(arc_between(start, end, 30.0), share, start_turn, end_turn);
            EXPECT_LT((change - expected).norm(), 1e-7 * 30.0) << "dogleg " << dogleg << " share " << share;
        }
    }
}

}  // namespace
}  // namespace selvage::paths
