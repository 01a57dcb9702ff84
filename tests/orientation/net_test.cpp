#include "orientation/net.h"

#include "base/angle.h"

#include "support/attitudes.h"

#include <gtest/gtest.h>

namespace selvage::orientation {
namespace {

using test::line;

// r = sqrt(2) sin((90 - p)/2) (Lambert 1772; Schmidt 1925) and r = tan((90 - p)/2), radius 1, computed apart from this program.
struct OnNets {
    double plunge, equal_area, equal_angle;
};
const OnNets values[] = {{0, 1.0, 1.0},
                         {10, 0.909039, 0.839100},
                         {20, 0.811160, 0.700208},
                         {30, 0.707107, 0.577350},
                         {45, 0.541196, 0.414214},
                         {60, 0.366025, 0.267949},
                         {75, 0.184592, 0.131652},
                         {90, 0.0, 0.0}};

TEST(Net, DistancesFromTheMiddleAreThePublishedOnes) {
    for (const OnNets& value : values) {
        EXPECT_NEAR(on_equal_area_net(line(70.0, value.plunge)).norm(), value.equal_area, 1e-6);
        EXPECT_NEAR(on_equal_angle_net(line(70.0, value.plunge)).norm(), value.equal_angle, 1e-6);
    }
}

TEST(Net, NortheastPlotsUpperRight) {
    EXPECT_NEAR((on_equal_area_net(line(45.0, 30.0)) - Eigen::Vector2d(0.5, 0.5)).norm(), 0.0, 1e-6);
}

TEST(Net, ALineHasNoSign) {
    const Eigen::Vector3d down = line(200.0, 35.0);
    EXPECT_EQ(on_equal_area_net(-down), on_equal_area_net(down));
    EXPECT_EQ(on_equal_angle_net(-down), on_equal_angle_net(down));
}

}  // namespace
}  // namespace selvage::orientation
