#pragma once

#include "veins/covariance.h"
#include "veins/surface_rows.h"

#include <Eigen/Core>

// What is not known of a surface beside its heights, and how likely the data are under it. Private to the surface's files.
namespace selvage::veins {

// Scores of six parameters, each N(0, 1) beforehand.
constexpr int surface_scores = 6;
using Scores = Eigen::Matrix<double, surface_scores, 1>;

struct SurfaceGuess {
    Smoothness smoothness = Smoothness::three_halves;
    SurfaceShape shape;
    double core_sd = 0.1;       // g_n: of a slope measured on core, small waves of the surface included
    double noise_factor = 1.0;  // f_n: on the stated sds of picks and surveys
};

// Priors: range 2.5 s e^t, slope sd 0.08 e^t, anisotropy e^|t/2|, long axis uniform, core sd 0.11 e^(0.35 t) but at least 2
// degrees, noise factor e^(0.3 t); s the hole spacing, t ~ N(0, 1). Scores are held to +-4.5.
SurfaceGuess guess_of(Smoothness smoothness, const Scores& scores, double spacing);

// Covariance of the rows under a guess, lower triangle.
Eigen::MatrixXd covariance_of_rows(const SurfaceRows& rows, const SurfaceGuess& guess);

// log p(values | scores), minus infinity where the matrix cannot be factored.
double log_likelihood(const SurfaceRows& rows, Smoothness smoothness, const Scores& scores, double spacing);
// The same with its derivatives by the scores.
double log_likelihood(const SurfaceRows& rows, Smoothness smoothness, const Scores& scores, double spacing, Scores& gradient);

// log p(the last `count` values | those before, scores) with its derivatives, at little more than the cost of the value.
double log_likelihood_of_last(const SurfaceRows& rows, Eigen::Index count, Smoothness smoothness, const Scores& scores,
                              double spacing, Scores& gradient);

// log of the scores' prior density.
double log_prior(const Scores& scores);

}  // namespace selvage::veins
