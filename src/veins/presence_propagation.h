#pragma once

#include "veins/presence.h"

#include <Eigen/Core>

// The sites of expectation propagation: what each hit or miss says of the hidden value at its place. Private to this room.
namespace selvage::veins {

// What one site's likelihood makes of a normal cavity (m, v): log of its integral, new mean and variance.
struct Matched {
    double log_integral = 0.0, mean = 0.0, variance = 1.0;
};

Matched matched(const PresenceDatum& datum, double mean, double variance);

// The posterior of the hidden values given the sites, about the prior's mean.
struct Posterior {
    Eigen::MatrixXd covariance;
    Eigen::VectorXd mean;
    double log_determinant = 0.0;  // of 1 + S^1/2 K S^1/2
};

Posterior posterior_of(const Eigen::MatrixXd& prior, const PropagatedSites& sites);

// The hidden value at one datum by all the others: the posterior without that datum's own site, about the prior's mean (Rasmussen
// & Williams 2006, eq. 3.56).
struct Cavity {
    double precision = 1.0, shift = 0.0;
    double variance() const { return 1.0 / precision; }
    double mean() const { return shift / precision; }
};

Cavity cavity_of(const Posterior& posterior, const PropagatedSites& sites, Eigen::Index i);

}  // namespace selvage::veins
