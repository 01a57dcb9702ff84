#include "numerics/median.h"

#include <gtest/gtest.h>

namespace selvage::numerics {
namespace {

TEST(Median, IsTheMiddleOneOrTheMeanOfTheTwoInTheMiddle) {
    EXPECT_EQ(median({5.0}), 5.0);
    EXPECT_EQ(median({4.0, 1.0}), 2.5);
    EXPECT_EQ(median({9.0, 1.0, 5.0}), 5.0);
    EXPECT_EQ(median({9.0, 1.0, 5.0, 3.0}), 4.0);
    EXPECT_EQ(median({2.0, 2.0, -1e9, 1e9}), 2.0);
}

}  // namespace
}  // namespace selvage::numerics
