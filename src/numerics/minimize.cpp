#include "numerics/minimize.h"

#include <cmath>

namespace selvage::numerics {

namespace {

// Inverse Hessian after a step s over which the gradient changed by y.
void update(Eigen::MatrixXd& inverse, const Eigen::VectorXd& s, const Eigen::VectorXd& y) {
    const double curvature = s.dot(y);
    if (curvature <= 1e-12 * s.norm() * y.norm()) return;  // keeps the matrix positive definite
    const Eigen::VectorXd iy = inverse * y;
    inverse +=
        (1.0 + y.dot(iy) / curvature) / curvature * s * s.transpose() - (iy * s.transpose() + s * iy.transpose()) / curvature;
}

}  // namespace

Minimum minimize(const SmoothFunction& function, const Eigen::VectorXd& start, const MinimizeRules& rules) {
    constexpr double sufficient_fall = 1e-4;  // of what the slope promises (Armijo)
    constexpr int most_halvings = 20;
    Eigen::VectorXd x = start, gradient = Eigen::VectorXd::Zero(start.size()), next_gradient = gradient;
    double value = function(x, gradient);
    Eigen::MatrixXd inverse = Eigen::MatrixXd::Identity(start.size(), start.size());
    for (int step = 0; step < rules.most_steps && gradient.lpNorm<Eigen::Infinity>() > rules.gradient_tolerance; ++step) {
        Eigen::VectorXd direction = -(inverse * gradient);
        if (direction.dot(gradient) >= 0.0) direction = -gradient;
        const double length = direction.norm();
        if (length > rules.longest_step) direction *= rules.longest_step / length;
        const double slope = direction.dot(gradient);
        double share = 1.0, next_value = value;
        bool fell = false;
        for (int halving = 0; halving < most_halvings && !fell; ++halving) {
            next_value = function(x + share * direction, next_gradient);
            fell = next_value <= value + sufficient_fall * share * slope;
            if (!fell) share *= 0.5;
        }
        if (!fell) break;
        update(inverse, share * direction, next_gradient - gradient);
        x += share * direction;
        gradient = next_gradient;
        value = next_value;
    }
    return {x, value};
}

}  // namespace selvage::numerics
