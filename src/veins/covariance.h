#pragma once

#include <Eigen/Core>

#include <algorithm>
#include <cmath>

// Covariance of a smooth random surface with itself and with its slopes: the two Matern kernels whose formulas end after a
// few terms (Rasmussen & Williams 2006, ch. 4), stretched along a direction.
namespace selvage::veins {

enum class Smoothness { three_halves, five_halves };  // nu: once and twice differentiable

// k(d) = sill (1 + ar) e^-ar, a = sqrt 3   or   sill (1 + ar + a^2 r^2/3) e^-ar, a = sqrt 5;   r^2 = d'Md.
struct Kernel {
    Smoothness smoothness = Smoothness::three_halves;
    double sill = 1.0;                                     // m2
    Eigen::Matrix2d metric = Eigen::Matrix2d::Identity();  // M, 1/m2
};

// What a geologist can say beforehand of a surface.
struct SurfaceShape {
    double range = 1.0;       // L, m, mean of the two axes
    double slope_sd = 0.1;    // g, a tangent, mean of the two axes
    double anisotropy = 1.0;  // q >= 1: the axes are L sqrt q and L / sqrt q
    double long_axis = 0.0;   // radians from u towards v
};
Kernel kernel_of(Smoothness smoothness, const SurfaceShape& shape);

// The kernel over a lag d = x - x'. With P and Q of the radial part:  dk/dd = -P Md,  d2k/dd dd' = -P M + Q Md(Md)'.
//   cov(f, f') = value      cov(f, grad f') = P Md      cov(grad f, f') = -P Md      cov(grad f, grad f') = P M - Q Md(Md)'
struct KernelTerms {
    double value = 0.0;
    double p = 0.0, q = 0.0;
    double t = 0.0;                                  // -2 dQ/d(r^2): for derivatives by the kernel's own parameters
    Eigen::Vector2d pull = Eigen::Vector2d::Zero();  // Md

    Eigen::Matrix2d slopes_with_slopes(const Kernel& kernel) const { return p * kernel.metric - q * pull * pull.transpose(); }
};
// Inline, so that what is not asked for is not worked out: models spend a tenth of their time here.
inline KernelTerms kernel_at(const Kernel& kernel, const Eigen::Vector2d& lag) {
    constexpr double same_place = 1e-12;  // the singular terms of nu 3/2 vanish there, multiplied by the lag
    KernelTerms terms;
    terms.pull.noalias() = kernel.metric * lag;
    const double r = std::sqrt(std::max(0.0, lag.dot(terms.pull)));
    if (kernel.smoothness == Smoothness::three_halves) {
        const double a = std::sqrt(3.0), decay = kernel.sill * std::exp(-a * r);
        terms.value = decay * (1.0 + a * r);
        terms.p = decay * 3.0;
        if (r > same_place) {
            terms.q = decay * 3.0 * a / r;
            terms.t = terms.q * (1.0 + a * r) / (r * r);
        }
    } else {
        const double a = std::sqrt(5.0), decay = kernel.sill * std::exp(-a * r);
        terms.value = decay * (1.0 + a * r + 5.0 / 3.0 * r * r);
        terms.p = decay * 5.0 / 3.0 * (1.0 + a * r);
        terms.q = decay * 25.0 / 3.0;
        if (r > same_place) terms.t = terms.q * a / r;
    }
    return terms;
}

// Sum of weights times the covariances of two places' (height, slope u, slope v), as a function of the kernel's parameters:
// its derivative by log sill, and by the metric (symmetric, dF = trace(by_metric dM)).
struct KernelSensitivity {
    double by_log_sill = 0.0;
    Eigen::Matrix2d by_metric = Eigen::Matrix2d::Zero();
};
// weights(a, b) is that of entry a of the first place with entry b of the second; lag = first - second.
void add_sensitivity(KernelSensitivity& sum, const Kernel& kernel, const KernelTerms& terms, const Eigen::Vector2d& lag,
                     const Eigen::Matrix3d& weights);

// Derivatives of the kernel by the logs of range, slope sd and anisotropy, and by the long axis's angle.
struct ShapeDerivative {
    double log_sill = 0.0;
    Eigen::Matrix2d metric = Eigen::Matrix2d::Zero();
};
struct ShapeDerivatives {
    ShapeDerivative log_range, log_slope_sd, log_anisotropy, long_axis;
};
ShapeDerivatives shape_derivatives(const SurfaceShape& shape);

}  // namespace selvage::veins
