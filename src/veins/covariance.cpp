#include "veins/covariance.h"

#include <cmath>

namespace selvage::veins {

namespace {

struct Axes {
    Eigen::Vector2d along, across;
    double along_weight, across_weight;  // eigenvalues of the metric
};

Axes axes_of(const SurfaceShape& shape) {
    const double c = std::cos(shape.long_axis), s = std::sin(shape.long_axis), l2 = shape.range * shape.range;
    return {{c, s}, {-s, c}, 1.0 / (l2 * shape.anisotropy), shape.anisotropy / l2};
}

}  // namespace

Kernel kernel_of(Smoothness smoothness, const SurfaceShape& shape) {
    const Axes axes = axes_of(shape);
    const double g2l2 = shape.slope_sd * shape.slope_sd * shape.range * shape.range;
    Kernel kernel;
    kernel.smoothness = smoothness;
    kernel.sill = smoothness == Smoothness::three_halves ? g2l2 / 3.0 : 3.0 * g2l2 / 5.0;
    kernel.metric =
        axes.along_weight * axes.along * axes.along.transpose() + axes.across_weight * axes.across * axes.across.transpose();
    return kernel;
}

// F = w k + P c.Md + P trace(W M) - Q (Md)'W(Md) with w the weight of height with height, c those of heights with slopes and W
// of slopes with slopes. For a change dM:  dk = -P/2 d'dMd,  dP = -Q/2 d'dMd,  dQ = -T/2 d'dMd.
void add_sensitivity(KernelSensitivity& sum, const Kernel& kernel, const KernelTerms& terms, const Eigen::Vector2d& lag,
                     const Eigen::Matrix3d& weights) {
    const Eigen::Vector2d c = weights.block<1, 2>(0, 1).transpose() - weights.block<2, 1>(1, 0);
    const Eigen::Matrix2d w = 0.5 * (weights.block<2, 2>(1, 1) + weights.block<2, 2>(1, 1).transpose());
    const Eigen::Vector2d wh = w * terms.pull;
    const double trace = (w.cwiseProduct(kernel.metric)).sum(), ch = c.dot(terms.pull), hwh = terms.pull.dot(wh);
    sum.by_log_sill += weights(0, 0) * terms.value + terms.p * (ch + trace) - terms.q * hwh;
    const double by_square = -0.5 * terms.p * weights(0, 0) - 0.5 * terms.q * (ch + trace) + 0.5 * terms.t * hwh;
    const Eigen::Vector2d mixed = 0.5 * terms.p * c - terms.q * wh;
    sum.by_metric += by_square * lag * lag.transpose() + mixed * lag.transpose() + lag * mixed.transpose() + terms.p * w;
}

ShapeDerivatives shape_derivatives(const SurfaceShape& shape) {
    const Axes axes = axes_of(shape);
    const Eigen::Matrix2d along = axes.along_weight * axes.along * axes.along.transpose();
    const Eigen::Matrix2d across = axes.across_weight * axes.across * axes.across.transpose();
    const Eigen::Matrix2d turned = axes.across * axes.along.transpose() + axes.along * axes.across.transpose();
    ShapeDerivatives derivatives;
    derivatives.log_range = {2.0, -2.0 * (along + across)};
    derivatives.log_slope_sd = {2.0, Eigen::Matrix2d::Zero()};
    derivatives.log_anisotropy = {0.0, across - along};
    derivatives.long_axis = {0.0, (axes.along_weight - axes.across_weight) * turned};
    return derivatives;
}

}  // namespace selvage::veins
