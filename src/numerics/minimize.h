#pragma once

#include <Eigen/Core>

#include <functional>

namespace selvage::numerics {

struct MinimizeRules {
    double gradient_tolerance = 1e-6;  // stops where no part of the gradient is larger
    double longest_step = 2.0;         // in the unit of the arguments, which should be about 1
    int most_steps = 60;
};

struct Minimum {
    Eigen::VectorXd point;
    double value = 0.0;
};

// Value of a function at x; writes its gradient, of the same length. May return infinity, never NaN.
using SmoothFunction = std::function<double(const Eigen::VectorXd& x, Eigen::VectorXd& gradient)>;

// A local minimum near `start`, where the function must be finite: quasi-Newton steps by the formula of Broyden, Fletcher,
// Goldfarb and Shanno, from the unit matrix, with halving of steps (Nocedal & Wright, Numerical Optimization, ch. 6 and 3).
Minimum minimize(const SmoothFunction& function, const Eigen::VectorXd& start, const MinimizeRules& rules = {});

}  // namespace selvage::numerics
