#include "base/segment.h"

#include <Eigen/Core>

#include <gtest/gtest.h>

namespace selvage::base {
namespace {

TEST(Segment, DistanceIsSquareToItBesideItAndToAnEndBeyondIt) {
    const Eigen::Vector3d from(0.0, 0.0, 0.0), to(10.0, 0.0, 0.0);
    EXPECT_DOUBLE_EQ(distance_to_segment(Eigen::Vector3d(4.0, 3.0, 4.0), from, to), 5.0);
    EXPECT_DOUBLE_EQ(distance_to_segment(Eigen::Vector3d(13.0, 0.0, 4.0), from, to), 5.0);
    EXPECT_DOUBLE_EQ(distance_to_segment(Eigen::Vector3d(-3.0, 4.0, 0.0), from, to), 5.0);
    EXPECT_DOUBLE_EQ(distance_to_segment(Eigen::Vector2d(3.0, 4.0), {0.0, 0.0}, {0.0, 0.0}), 5.0);
}

}  // namespace
}  // namespace selvage::base
