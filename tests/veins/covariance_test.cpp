#include "veins/covariance.h"

#include <gtest/gtest.h>

#include <cmath>

namespace selvage::veins {
namespace {

constexpr double step = 1e-4;
const SurfaceShape shape{80.0, 0.12, 1.7, 0.6};

class EitherSmoothness : public testing::TestWithParam<Smoothness> {};
INSTANTIATE_TEST_SUITE_P(Covariance, EitherSmoothness, testing::Values(Smoothness::three_halves, Smoothness::five_halves));

Eigen::Vector2d unit(Eigen::Index axis) { return Eigen::Vector2d::Unit(axis); }

TEST_P(EitherSmoothness, SlopesGoWithHeightsAsTheDerivativeSays) {
    const Kernel kernel = kernel_of(GetParam(), shape);
    for (const Eigen::Vector2d& lag : {Eigen::Vector2d(30.0, -20.0), Eigen::Vector2d(0.5, 0.2), Eigen::Vector2d(-150.0, 200.0)}) {
        const KernelTerms terms = kernel_at(kernel, lag);
        for (Eigen::Index axis = 0; axis < 2; ++axis) {
            const Eigen::Vector2d h = step * unit(axis);
            const KernelTerms ahead = kernel_at(kernel, lag + h), behind = kernel_at(kernel, lag - h);
            EXPECT_NEAR(-terms.p * terms.pull(axis), (ahead.value - behind.value) / (2.0 * step), 1e-5 * kernel.sill / 80.0);
            const Eigen::Vector2d change = (ahead.p * ahead.pull - behind.p * behind.pull) / (2.0 * step);
            EXPECT_LT((terms.slopes_with_slopes(kernel).col(axis) - change).norm(), 1e-5 * shape.slope_sd * shape.slope_sd);
        }
    }
}

TEST_P(EitherSmoothness, SlopeVarianceAtAPlaceIsTheSquareOfTheSlopeSdByAxis) {
    const SurfaceShape along_u{80.0, 0.12, 1.7, 0.0};
    const Kernel kernel = kernel_of(GetParam(), along_u);
    const Eigen::Matrix2d slopes = kernel_at(kernel, Eigen::Vector2d::Zero()).slopes_with_slopes(kernel);
    EXPECT_NEAR(slopes(0, 0), 0.12 * 0.12 / 1.7, 1e-12);
    EXPECT_NEAR(slopes(1, 1), 0.12 * 0.12 * 1.7, 1e-12);
    EXPECT_NEAR(slopes(0, 1), 0.0, 1e-15);
}

// Matern's correlation at r = L: (1 + sqrt 3) e^-sqrt 3 and (1 + sqrt 5 + 5/3) e^-sqrt 5 (Rasmussen & Williams 2006, eq. 4.17).
TEST_P(EitherSmoothness, FallsAsThePublishedFormula) {
    Kernel kernel;
    kernel.smoothness = GetParam();
    kernel.sill = 2.0;
    kernel.metric = Eigen::Matrix2d::Identity() / (25.0 * 25.0);
    const double expected = GetParam() == Smoothness::three_halves ? 0.48335772 : 0.52399411;
    EXPECT_NEAR(kernel_at(kernel, {15.0, 20.0}).value, 2.0 * expected, 1e-7);
}

// The weighted sum whose sensitivity is asked for.
double weighted_sum(const Kernel& kernel, const Eigen::Vector2d& lag, const Eigen::Matrix3d& weights) {
    const KernelTerms terms = kernel_at(kernel, lag);
    Eigen::Matrix3d block;
    block << terms.value, terms.p * terms.pull.transpose(), -terms.p * terms.pull, terms.slopes_with_slopes(kernel);
    return weights.cwiseProduct(block).sum();
}

TEST_P(EitherSmoothness, SensitivityIsTheDerivativeByEveryParameterOfShape) {
    Eigen::Matrix3d weights;
    weights << 0.7, -30.0, 12.0, 55.0, 900.0, -400.0, 8.0, 350.0, 1500.0;
    const auto value = [&](const SurfaceShape& at, const Eigen::Vector2d& lag) {
        return weighted_sum(kernel_of(GetParam(), at), lag, weights);
    };
    for (const Eigen::Vector2d& lag : {Eigen::Vector2d(30.0, -20.0), Eigen::Vector2d(0.0, 0.0), Eigen::Vector2d(-120.0, 90.0)}) {
        const Kernel kernel = kernel_of(GetParam(), shape);
        KernelSensitivity sum;
        add_sensitivity(sum, kernel, kernel_at(kernel, lag), lag, weights);
        const ShapeDerivatives by = shape_derivatives(shape);
        const auto along = [&](const ShapeDerivative& d) {
            return sum.by_log_sill * d.log_sill + sum.by_metric.cwiseProduct(d.metric).sum();
        };
        const auto difference = [&](double SurfaceShape::*member, bool log) {
            SurfaceShape up = shape, down = shape;
            up.*member = log ? shape.*member * std::exp(step) : shape.*member + step;
            down.*member = log ? shape.*member * std::exp(-step) : shape.*member - step;
            return (value(up, lag) - value(down, lag)) / (2.0 * step);
        };
        EXPECT_NEAR(along(by.log_range), difference(&SurfaceShape::range, true), 1e-5);
        EXPECT_NEAR(along(by.log_slope_sd), difference(&SurfaceShape::slope_sd, true), 1e-5);
        EXPECT_NEAR(along(by.log_anisotropy), difference(&SurfaceShape::anisotropy, true), 1e-5);
        EXPECT_NEAR(along(by.long_axis), difference(&SurfaceShape::long_axis, false), 1e-5);
    }
}

}  // namespace
}  // namespace selvage::veins
