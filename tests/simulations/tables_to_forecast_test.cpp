#include "studies/expect_windows.h"
#include "studies/studies.h"

#include <gtest/gtest.h>

namespace selvage::studies {
namespace {

// Half of the study's worlds. Standard error of the 80 % figure at 520 forecasts about 1.8; windows fixed beforehand.
TEST(TablesToForecast, RangesHoldAsOftenAsTheySay) {
    const Study study = pierce_depths(260);
    EXPECT_GE(study.rows.back().count, 500U);
    expect_windows(study);
}

}  // namespace
}  // namespace selvage::studies
