#include "studies/studies.h"

#include <gtest/gtest.h>

// Whether the ranges that the surface model says hold as often as it says, on made-up veins that it was not tuned on.
namespace selvage::studies {
namespace {

// 60 veins of 10 holes with oriented core: a vein's own figure varies by 20 points, so that these have a standard error of 2.6.
TEST(SurfaceCalibration, EightyPercentRangesHoldEightyPercent) {
    const Coverages coverages = coverages_of(60, [](std::size_t k) { return made_up::vein(20260101, 10, k, true); });
    for (const made_up::Coverage& coverage : coverages) {
        EXPECT_GE(coverage.count, 800U);
        EXPECT_GT(coverage.percent80(), 72.0);
        EXPECT_LT(coverage.percent80(), 90.0);
    }
}

}  // namespace
}  // namespace selvage::studies
