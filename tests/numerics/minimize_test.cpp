#include "numerics/minimize.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

namespace selvage::numerics {
namespace {

// Rosenbrock's valley, minimum 0 at (1, 1), from its usual start (Rosenbrock 1960).
TEST(Minimize, FollowsACurvedValleyToItsEnd) {
    const auto valley = [](const Eigen::VectorXd& x, Eigen::VectorXd& gradient) {
        const double off = x(1) - x(0) * x(0);
        gradient.resize(2);
        gradient << -400.0 * x(0) * off - 2.0 * (1.0 - x(0)), 200.0 * off;
        return 100.0 * off * off + (1.0 - x(0)) * (1.0 - x(0));
    };
    const Minimum found = minimize(valley, Eigen::Vector2d(-1.2, 1.0), {1e-8, 2.0, 200});
    EXPECT_NEAR(found.point(0), 1.0, 1e-7);
    EXPECT_NEAR(found.point(1), 1.0, 1e-7);
    EXPECT_NEAR(found.value, 0.0, 1e-12);
}

TEST(Minimize, StepsBackFromWhereTheFunctionHasNoValue) {
    const auto barrier = [](const Eigen::VectorXd& x, Eigen::VectorXd& gradient) {
        gradient = Eigen::VectorXd::Constant(1, 1.0 - 0.01 / x(0));
        return x(0) > 0.0 ? x(0) - 0.01 * std::log(x(0)) : std::numeric_limits<double>::infinity();
    };
    EXPECT_NEAR(minimize(barrier, Eigen::VectorXd::Constant(1, 3.0)).point(0), 0.01, 1e-7);
}

}  // namespace
}  // namespace selvage::numerics
