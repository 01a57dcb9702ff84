#include "numerics/sobol.h"

#include <gtest/gtest.h>

#include <set>

namespace selvage::numerics {
namespace {

// Digital shifts keep the sequence's balance: of the first 2^k points of any dimension, 2^k equal intervals hold one each, and of
// the first 16 points of the first two dimensions every elementary interval of area 1/16 holds one (Sobol 1967: a (0, m, 2) net).
TEST(SobolPoints, FillEveryIntervalOfEveryDimensionOnce) {
    const Eigen::MatrixXd points = sobol_points(32, most_sobol_dimensions);
    for (Eigen::Index j = 0; j < points.cols(); ++j) {
        std::set<int> intervals;
        for (Eigen::Index i = 0; i < 32; ++i) intervals.insert(static_cast<int>(points(i, j) * 32.0));
        EXPECT_EQ(intervals.size(), 32U) << "dimension " << j;
    }
}

TEST(SobolPoints, FillEveryCellOfTheFirstTwoDimensionsOnce) {
    const Eigen::MatrixXd points = sobol_points(16, 2);
    for (const int columns : {1, 2, 4, 8, 16}) {
        std::set<std::pair<int, int>> cells;
        for (Eigen::Index i = 0; i < 16; ++i)
            cells.emplace(static_cast<int>(points(i, 0) * columns), static_cast<int>(points(i, 1) * (16.0 / columns)));
        EXPECT_EQ(cells.size(), 16U) << columns << " columns";
    }
}

TEST(SobolPoints, StayClearOfTheEndsAndRepeat) {
    const Eigen::MatrixXd points = sobol_points(5000, 7);
    EXPECT_GE(points.minCoeff(), 1e-4);
    EXPECT_LE(points.maxCoeff(), 1.0 - 1e-4);
    EXPECT_EQ(points, sobol_points(5000, 7));
    EXPECT_EQ(points.topRows(32), sobol_points(32, 7));
}

}  // namespace
}  // namespace selvage::numerics
