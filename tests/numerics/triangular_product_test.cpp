#include "numerics/triangular_product.h"

#include <gtest/gtest.h>

#include <utility>

namespace selvage::numerics {
namespace {

TEST(SquaredColumns, AreThoseOfTheWholeProduct) {
    for (const auto& [size, count] : {std::pair{1, 1}, {3, 8}, {8, 9}, {13, 20}, {40, 3}, {100, 130}}) {
        const Eigen::MatrixXd square = Eigen::MatrixXd::Random(size, size), columns = Eigen::MatrixXd::Random(size, count);
        const Eigen::MatrixXd lower = square.triangularView<Eigen::Lower>();
        const Eigen::VectorXd expected = (lower * columns).colwise().squaredNorm();
        const Eigen::VectorXd found = squared_columns(square, columns);
        ASSERT_EQ(found.size(), count);
        for (Eigen::Index i = 0; i < count; ++i) EXPECT_NEAR(found(i), expected(i), 1e-12 * (1.0 + expected(i))) << size;
    }
}

TEST(SquaredColumns, DoNotDependOnTheOtherColumns) {
    const Eigen::MatrixXd lower = Eigen::MatrixXd::Random(37, 37), columns = Eigen::MatrixXd::Random(37, 21);
    const Eigen::VectorXd all = squared_columns(lower, columns);
    for (Eigen::Index i = 0; i < columns.cols(); ++i) EXPECT_EQ(squared_columns(lower, columns.col(i))(0), all(i));
}

TEST(SquaredColumns, OfNothingAreZero) {
    EXPECT_EQ(squared_columns(Eigen::MatrixXd(0, 0), Eigen::MatrixXd(0, 2)), Eigen::VectorXd::Zero(2));
    EXPECT_EQ(squared_columns(Eigen::MatrixXd::Identity(3, 3), Eigen::MatrixXd(3, 0)).size(), 0);
}

}  // namespace
}  // namespace selvage::numerics
