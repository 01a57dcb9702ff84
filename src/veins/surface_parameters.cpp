#include "veins/surface_parameters.h"

#include "numerics/normal_mixture.h"
#include "veins/gaussian_process.h"

#include <Eigen/Cholesky>

#include <algorithm>
#include <cmath>
#include <limits>

namespace selvage::veins {

namespace {

constexpr double pi = 3.14159265358979323846;
constexpr double score_limit = 4.5;

// Medians of the priors, and what one unit of score does to the log.
constexpr double range_in_spacings = 2.5, slope_sd_median = 0.08, core_sd_median = 0.11;
constexpr double anisotropy_step = 0.5, core_sd_step = 0.35, noise_step = 0.3;
constexpr double least_core_sd = 2.0 * pi / 180.0;

Scores held(const Scores& scores) { return scores.cwiseMax(-score_limit).cwiseMin(score_limit); }

// Two of the scores, as a point of the plane, give the anisotropy's strength and the long axis: twice the axis's angle is the
// point's direction, and log q = |t/2| with t as likely to be exceeded as the point's distance is. So the angle is uniform and t
// half normal, as without this, but there is no first or last angle, and nothing jumps at q = 1.
struct Anisotropy {
    double log_ratio = 0.0, axis = 0.0;
    Eigen::Vector2d log_ratio_by_point = Eigen::Vector2d::Zero(), axis_by_point = Eigen::Vector2d::Zero();
};
Anisotropy anisotropy_of(const Eigen::Vector2d& point) {
    const double distance = point.norm();
    Anisotropy anisotropy;
    if (distance < 1e-9) return anisotropy;
    const double exceeded = std::exp(-0.5 * distance * distance), t = -numerics::normal_quantile(0.5 * exceeded);
    anisotropy.log_ratio = anisotropy_step * t;
    anisotropy.log_ratio_by_point = anisotropy_step * 0.5 * exceeded / numerics::normal_density(t) * point;
    anisotropy.axis = 0.5 * std::atan2(point.y(), point.x());
    anisotropy.axis_by_point = 0.5 / (distance * distance) * Eigen::Vector2d(-point.y(), point.x());
    return anisotropy;
}

// Covariances of two places' (height, slope u, slope v), slopes times s.
Eigen::Matrix3d block_of(const Kernel& kernel, const KernelTerms& terms, double s) {
    Eigen::Matrix3d block;
    block(0, 0) = terms.value;
    block.block<1, 2>(0, 1) = s * terms.p * terms.pull.transpose();
    block.block<2, 1>(1, 0) = -s * terms.p * terms.pull;
    block.block<2, 2>(1, 1) = s * s * terms.slopes_with_slopes(kernel);
    return block;
}

// Calls use(matrix row, matrix column, block row, block column) for the entries that two places really have.
template <typename Use>
void for_entries(const RowPlace& a, const RowPlace& b, const Use& use) {
    const Eigen::Index from_a = a.has_height ? 0 : 1, to_a = a.has_slopes ? 3 : 1;
    const Eigen::Index from_b = b.has_height ? 0 : 1, to_b = b.has_slopes ? 3 : 1;
    for (Eigen::Index j = from_b; j < to_b; ++j)
        for (Eigen::Index i = from_a; i < to_a; ++i) use(a.first + i - from_a, b.first + j - from_b, i, j);
}

// Sensitivity of the log likelihood to the kernel, whose weights are half of (K^-1 y)(K^-1 y)' - K^-1 over the whole matrix.
KernelSensitivity kernel_sensitivity(const SurfaceRows& rows, const Kernel& kernel, const Eigen::MatrixXd& weights) {
    KernelSensitivity sum;
    for (std::size_t j = 0; j < rows.places.size(); ++j)
        for (std::size_t i = j; i < rows.places.size(); ++i) {
            const RowPlace &a = rows.places[i], &b = rows.places[j];
            Eigen::Matrix3d block = Eigen::Matrix3d::Zero();
            for_entries(a, b, [&](Eigen::Index row, Eigen::Index column, Eigen::Index k, Eigen::Index l) {
                const double scale = (k > 0 ? rows.slope_scale : 1.0) * (l > 0 ? rows.slope_scale : 1.0);
                const double weight = row >= column ? weights(row, column) : weights(column, row);
                block(k, l) = scale * (i == j ? 0.5 : 1.0) * weight;
            });
            const Eigen::Vector2d lag = a.place - b.place;
            add_sensitivity(sum, kernel, kernel_at(kernel, lag), lag, block);
        }
    return sum;
}

double along(const KernelSensitivity& sensitivity, const ShapeDerivative& derivative) {
    return sensitivity.by_log_sill * derivative.log_sill + sensitivity.by_metric.cwiseProduct(derivative.metric).sum();
}

// Half the sum of weights times a symmetric matrix of which the lower triangle is given.
double half_contraction(const Eigen::MatrixXd& weights, const Eigen::MatrixXd& lower) {
    double sum = 0.0;
    for (Eigen::Index j = 0; j < lower.cols(); ++j) {
        const Eigen::Index below = lower.rows() - j - 1;
        sum += 0.5 * weights(j, j) * lower(j, j) + weights.col(j).tail(below).dot(lower.col(j).tail(below));
    }
    return sum;
}

// Derivatives of a log likelihood by the scores, from those by the matrix: half of `weights`, of which the lower triangle is
// read.
Scores gradient_of(const SurfaceRows& rows, const SurfaceGuess& guess, const Scores& scores, const Eigen::MatrixXd& weights) {
    Scores gradient = Scores::Zero();
    const KernelSensitivity sensitivity = kernel_sensitivity(rows, kernel_of(guess.smoothness, guess.shape), weights);
    const ShapeDerivatives by_shape = shape_derivatives(guess.shape);
    gradient(0) = along(sensitivity, by_shape.log_range);
    gradient(1) = along(sensitivity, by_shape.log_slope_sd);
    const Anisotropy anisotropy = anisotropy_of(held(scores).segment<2>(2));
    gradient.segment<2>(2) = along(sensitivity, by_shape.log_anisotropy) * anisotropy.log_ratio_by_point +
                             along(sensitivity, by_shape.long_axis) * anisotropy.axis_by_point;
    if (guess.core_sd > least_core_sd)
        gradient(4) = core_sd_step * guess.core_sd * guess.core_sd * weights.diagonal().dot(rows.core);
    gradient(5) = 2.0 * noise_step * guess.noise_factor * guess.noise_factor * half_contraction(weights, rows.scaled);
    for (Eigen::Index i = 0; i < surface_scores; ++i)
        if (std::abs(scores(i)) > score_limit) gradient(i) = 0.0;
    return gradient;
}

}  // namespace

SurfaceGuess guess_of(Smoothness smoothness, const Scores& scores, double spacing) {
    const Scores t = held(scores);
    const Anisotropy anisotropy = anisotropy_of(t.segment<2>(2));
    SurfaceGuess guess;
    guess.smoothness = smoothness;
    guess.shape.range = range_in_spacings * spacing * std::exp(t(0));
    guess.shape.slope_sd = slope_sd_median * std::exp(t(1));
    guess.shape.anisotropy = std::exp(anisotropy.log_ratio);
    guess.shape.long_axis = anisotropy.axis;
    guess.core_sd = std::max(least_core_sd, core_sd_median * std::exp(core_sd_step * t(4)));
    guess.noise_factor = std::exp(noise_step * t(5));
    return guess;
}

Eigen::MatrixXd covariance_of_rows(const SurfaceRows& rows, const SurfaceGuess& guess) {
    const Kernel kernel = kernel_of(guess.smoothness, guess.shape);
    const double noise = guess.noise_factor * guess.noise_factor;
    Eigen::MatrixXd matrix = rows.unscaled + noise * rows.scaled;
    matrix.diagonal() += guess.core_sd * guess.core_sd * rows.core;
    for (std::size_t j = 0; j < rows.places.size(); ++j)
        for (std::size_t i = j; i < rows.places.size(); ++i) {
            const RowPlace &a = rows.places[i], &b = rows.places[j];
            const Eigen::Matrix3d block = block_of(kernel, kernel_at(kernel, a.place - b.place), rows.slope_scale);
            for_entries(a, b, [&](Eigen::Index row, Eigen::Index column, Eigen::Index k, Eigen::Index l) {
                if (row >= column) matrix(row, column) += block(k, l);
            });
        }
    return matrix;
}

double log_likelihood(const SurfaceRows& rows, Smoothness smoothness, const Scores& scores, double spacing) {
    return log_density_of(covariance_of_rows(rows, guess_of(smoothness, scores, spacing)), rows.values);
}

double log_likelihood(const SurfaceRows& rows, Smoothness smoothness, const Scores& scores, double spacing, Scores& gradient) {
    const SurfaceGuess guess = guess_of(smoothness, scores, spacing);
    gradient.setZero();
    const auto data = condition(covariance_of_rows(rows, guess), rows.values);
    if (!data) return -std::numeric_limits<double>::infinity();
    Eigen::MatrixXd weights = -lower_inverse(*data);
    weights.selfadjointView<Eigen::Lower>().rankUpdate(data->weights);
    gradient = gradient_of(rows, guess, scores, weights);
    return data->log_density;
}

// With K = Z Z' and V the last columns of Z'^-1: K^-1 less that of the rows before is V V', and (K^-1 y) less theirs V (Z^-1
// y)_last.
double log_likelihood_of_last(const SurfaceRows& rows, Eigen::Index count, Smoothness smoothness, const Scores& scores,
                              double spacing, Scores& gradient) {
    const SurfaceGuess guess = guess_of(smoothness, scores, spacing);
    gradient.setZero();
    const Eigen::LLT<Eigen::MatrixXd> factor(covariance_of_rows(rows, guess));
    if (factor.info() != Eigen::Success) return -std::numeric_limits<double>::infinity();
    const Eigen::Index size = rows.values.size();
    const Eigen::VectorXd white = factor.matrixL().solve(rows.values);
    const Eigen::VectorXd of_all = factor.matrixU().solve(white);
    const Eigen::MatrixXd last = factor.matrixU().solve(Eigen::MatrixXd::Identity(size, size).rightCols(count));
    const Eigen::VectorXd of_before = of_all - last * white.tail(count);
    Eigen::MatrixXd weights = Eigen::MatrixXd::Zero(size, size);
    weights.selfadjointView<Eigen::Lower>().rankUpdate(of_all).rankUpdate(of_before, -1.0).rankUpdate(last, -1.0);
    gradient = gradient_of(rows, guess, scores, weights);
    constexpr double log_two_pi = 1.83787706640934548356;
    return -0.5 * white.tail(count).squaredNorm() - factor.matrixLLT().diagonal().tail(count).array().log().sum() -
           0.5 * log_two_pi * static_cast<double>(count);
}

double log_prior(const Scores& scores) {
    constexpr double log_two_pi = 1.83787706640934548356;
    return -0.5 * scores.squaredNorm() - 0.5 * log_two_pi * surface_scores;
}

}  // namespace selvage::veins
