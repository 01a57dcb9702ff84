#include "sheets/section_frame.h"

#include <gtest/gtest.h>
#include <Eigen/Geometry>

#include <cmath>

namespace selvage::sheets {
namespace {

using base::Azimuth;

const Eigen::Vector3d origin(100.0, 200.0, 0.0);

TEST(SectionFrame, RightHandEndIsTheMoreEasterlyOne) {
    for (const double azimuth : {10.0, 85.0, 121.0, 179.0, 190.0, 265.0, 301.0, 359.0})
        EXPECT_GT(section_frame(Azimuth::degrees(azimuth), origin).right.x(), 0.0) << azimuth;
}

TEST(SectionFrame, OneLooksWestOnAnExactNorthSouthLine) {
    for (const double azimuth : {0.0, 180.0}) {
        const SectionFrame frame = section_frame(Azimuth::degrees(azimuth), origin);
        EXPECT_EQ(frame.looking().degrees(), 270.0);
        EXPECT_EQ(frame.right, Eigen::Vector3d(0.0, 1.0, 0.0));
    }
}

// Whichever way the line is written, one looks along an azimuth in [270, 90).
TEST(SectionFrame, LooksAlongAnAzimuthFrom270To90) {
    for (double azimuth = 0.0; azimuth < 360.0; azimuth += 7.5) {
        const double looking = section_frame(Azimuth::degrees(azimuth), origin).looking().degrees();
        EXPECT_TRUE(looking >= 270.0 || looking < 90.0) << azimuth << " " << looking;
    }
}

TEST(SectionFrame, AGivenLookingDirectionTurnsItRound) {
    const SectionFrame usual = section_frame(Azimuth::degrees(121.0), origin);
    const SectionFrame turned = section_frame(Azimuth::degrees(121.0), origin, Azimuth::degrees(211.0));
    EXPECT_NEAR(usual.looking().degrees(), 31.0, 1e-9);
    EXPECT_NEAR(turned.looking().degrees(), 211.0, 1e-9);
    EXPECT_LT((usual.right + turned.right).norm(), 1e-12);
    const SectionFrame same = section_frame(Azimuth::degrees(121.0), origin, Azimuth::degrees(40.0));
    EXPECT_EQ(same.right_azimuth.degrees(), usual.right_azimuth.degrees());
}

TEST(SectionFrame, RightUpAndTowardsTheViewerMakeARightHandedFrame) {
    const SectionFrame frame = section_frame(Azimuth::degrees(63.0), origin);
    EXPECT_LT((frame.right.cross(Eigen::Vector3d::UnitZ()) + frame.away).norm(), 1e-12);
}

TEST(SectionFrame, PointsComeBackFromDistanceAndOffset) {
    const SectionFrame frame = section_frame(Azimuth::degrees(121.0), origin);
    const Eigen::Vector3d point(340.0, 12.0, -55.0);
    const Eigen::Vector3d back = frame.at(frame.distance(point), point.z()) + frame.offset(point) * frame.away;
    EXPECT_LT((back - point).norm(), 1e-9);
    EXPECT_GT(frame.offset(origin + 5.0 * frame.away), 0.0);
}

TEST(SectionView, TwoPointsStandApartByTrueDistanceOverScale) {
    SectionView view;
    view.frame = section_frame(Azimuth::degrees(121.0), origin);
    view.window = {29.0, 28.5, 325.0, 278.0};
    view.left_distance = -60.0;
    view.bottom_up = -210.0;
    view.metres_per_mm = 0.5;  // 1:500
    const drawing::Point a = view.paper(view.frame.at(0.0, -100.0)), b = view.paper(view.frame.at(50.0, -150.0));
    EXPECT_NEAR(b.x - a.x, 100.0, 1e-9);
    EXPECT_NEAR(b.y - a.y, -100.0, 1e-9);
    EXPECT_NEAR(a.x, 29.0 + 120.0, 1e-9);
    EXPECT_NEAR(view.distance_at(a.x), 0.0, 1e-9);
    EXPECT_NEAR(view.up_at(a.y), -100.0, 1e-9);
}

// tan(apparent) = tan(true) sin(angle between strike and section): the rule of structural geology textbooks.
TEST(ApparentDip, FollowsTheTextbookRule) {
    const double dip = 60.0, dip_direction = 90.0;  // strikes north
    const Eigen::Vector3d normal = base::upward_normal({base::Angle::degrees(dip), Azimuth::degrees(dip_direction)});
    for (const double section : {90.0, 60.0, 30.0}) {
        const SectionFrame frame = section_frame(Azimuth::degrees(section), origin);
        const auto line = apparent_dip_line(normal, frame);
        ASSERT_TRUE(line.has_value());
        const double apparent = std::atan2(-line->y(), line->x());
        const double expected =
            std::atan(std::tan(base::Angle::degrees(dip).radians()) * std::sin(base::Angle::degrees(section).radians()));
        EXPECT_NEAR(apparent, expected, 1e-9) << section;
    }
}

TEST(ApparentDip, IsNotToldWherePlaneAndSectionAreParallel) {
    const SectionFrame frame = section_frame(Azimuth::degrees(90.0), origin);
    EXPECT_FALSE(apparent_dip_line(frame.away, frame).has_value());
}

}  // namespace
}  // namespace selvage::sheets
