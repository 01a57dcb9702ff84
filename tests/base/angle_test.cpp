#include "base/angle.h"

#include <gtest/gtest.h>

#include <cmath>
#include <tuple>

namespace selvage::base {
namespace {

TEST(Angle, SineAndCosineAreExactAtRightAngles) {
    for (const auto& [degrees, sine, cosine] : {std::tuple{0.0, 0.0, 1.0},
                                                {90.0, 1.0, 0.0},
                                                {180.0, 0.0, -1.0},
                                                {270.0, -1.0, 0.0},
                                                {-90.0, -1.0, 0.0},
                                                {720.0, 0.0, 1.0}}) {
        EXPECT_EQ(Angle::degrees(degrees).sin(), sine) << degrees;
        EXPECT_EQ(Angle::degrees(degrees).cos(), cosine) << degrees;
    }
    EXPECT_NEAR(Angle::degrees(30).sin(), 0.5, 1e-15);
    EXPECT_NEAR(Angle::degrees(-123.4).cos(), std::cos(-123.4 * std::acos(-1.0) / 180.0), 1e-15);
}

TEST(Azimuth, WrapsToTheFullCircle) {
    EXPECT_EQ(Azimuth::degrees(360).degrees(), 0.0);
    EXPECT_EQ(Azimuth::degrees(-10).degrees(), 350.0);
    EXPECT_EQ(Azimuth::degrees(725).degrees(), 5.0);
    EXPECT_LT(Azimuth::degrees(-1e-18).degrees(), 360.0);
}

TEST(Azimuth, TurnsTheShortWay) {
    EXPECT_EQ(turn_between(Azimuth::degrees(359), Azimuth::degrees(1)).degrees(), 2.0);
    EXPECT_EQ(turn_between(Azimuth::degrees(1), Azimuth::degrees(359)).degrees(), -2.0);
    EXPECT_EQ(turn_between(Azimuth::degrees(0), Azimuth::degrees(180)).degrees(), 180.0);
}

TEST(Direction, EastwardsAndDownIsEastwardsAndDown) {
    const Eigen::Vector3d east = unit_vector({Azimuth::degrees(90), Dip::degrees(0)});
    EXPECT_EQ(east, Eigen::Vector3d(1, 0, 0));
    const Eigen::Vector3d down = unit_vector({Azimuth::degrees(40), Dip::degrees(90)});
    EXPECT_EQ(down.z(), -1.0);
    EXPECT_NEAR(down.head<2>().norm(), 0.0, 1e-15);
}

TEST(Direction, ComesBackFromItsVector) {
    for (double azimuth = 0.5; azimuth < 360.0; azimuth += 17.0)
        for (double dip = -89.0; dip < 90.0; dip += 13.0) {
            const Direction back = direction_of(3.0 * unit_vector({Azimuth::degrees(azimuth), Dip::degrees(dip)}));
            EXPECT_NEAR(back.azimuth.degrees(), azimuth, 1e-10);
            EXPECT_NEAR(back.dip.degrees(), dip, 1e-10);
        }
}

TEST(Attitude, OfANormalIsTheSameWhicheverWayItPoints) {
    const Attitude attitude{Angle::degrees(70), Azimuth::degrees(245)};
    for (const double sign : {1.0, -1.0}) {
        const Attitude back = attitude_of_normal(sign * upward_normal(attitude));
        EXPECT_NEAR(back.dip.degrees(), 70.0, 1e-10);
        EXPECT_NEAR(back.dip_direction.degrees(), 245.0, 1e-10);
    }
    EXPECT_EQ(attitude_of_normal(Eigen::Vector3d::UnitZ()).dip_direction.degrees(), 0.0);
    EXPECT_NEAR(strike_of(attitude).degrees(), 155.0, 1e-12);
}

}  // namespace
}  // namespace selvage::base
