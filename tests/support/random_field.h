#pragma once

#include "base/random.h"

#include <Eigen/Core>

#include <cstddef>

namespace selvage::made_up {

// A unit Gaussian field over the plane with Matern correlation of smoothness nu and range L, argument sqrt(2 nu) r / L, that can
// be asked anywhere: the sum of many random cosine waves whose frequencies follow the correlation's spectrum (Rahimi & Recht
// 2007, from memory; the spectrum of a Matern field is a multivariate t). nu = infinity: exp(-r^2 / 2 L^2).
class RandomField {
public:
    RandomField() = default;
    // Ranges L sqrt(ratio) along the direction `axis_radians` from u, L / sqrt(ratio) across it.
    RandomField(base::RandomStream& stream, double range, double nu, double ratio = 1.0, double axis_radians = 0.0);
    double at(const Eigen::Vector2d& place) const;

private:
    Eigen::Matrix2Xd frequencies_;
    Eigen::VectorXd phases_;
};

}  // namespace selvage::made_up
