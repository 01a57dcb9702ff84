#include "numerics/median.h"

#include <gtest/gtest.h>

namespace selvage::numerics {
namespace {

TEST(LowerMedian, IsOneOfTheValues) {
    EXPECT_EQ(lower_median({5.0}), 5.0);
    EXPECT_EQ(lower_median({9.0, 1.0, 5.0}), 5.0);
    EXPECT_EQ(lower_median({9.0, 1.0, 5.0, 3.0}), 3.0);
    EXPECT_EQ(lower_median({2.0, 2.0, -1e9, 1e9}), 2.0);
}

}  // namespace
}  // namespace selvage::numerics
