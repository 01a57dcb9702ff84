#pragma once

#include <Eigen/Core>

#include <optional>
#include <vector>

// Normal variables conditioned on data, whatever the covariance: simple kriging in the language of geostatistics. (Rasmussen &
// Williams 2006, ch. 2 and 5; Dubrule 1983 for one datum left out.)
namespace selvage::veins {

// Data y ~ N(0, K), solved once.
struct Conditioned {
    Eigen::MatrixXd whitener;  // Z^-1, lower triangular, where K = Z Z'
    Eigen::VectorXd weights;   // K^-1 y
    double log_density = 0.0;  // log N(y; 0, K)
};

// Only the lower triangle of `covariance` is read. Where it is not positive definite, `jitter` is added to its diagonal, ten
// times more with each of five attempts; nothing where that does not help.
constexpr double least_jitter = 1e-8;
std::optional<Conditioned> condition(Eigen::MatrixXd covariance, const Eigen::VectorXd& values, double jitter = least_jitter);
// The log density alone, at a third of the cost; minus infinity where there is none.
double log_density_of(Eigen::MatrixXd covariance, const Eigen::VectorXd& values, double jitter = least_jitter);
// Log density of the last `count` values given all before them; minus infinity where the matrix cannot be factored as it is.
double log_density_of_last(const Eigen::MatrixXd& covariance, const Eigen::VectorXd& values, Eigen::Index count);

struct Estimate {
    double mean = 0.0;
    double variance = 0.0;  // never negative
};
// A variable from its covariances with the data and its own variance.
Estimate estimate(const Conditioned& data, const Eigen::VectorXd& with_data, double own_variance);

// Several variables, each a column of covariances; each estimated on its own.
std::vector<Estimate> estimates(const Conditioned& data, const Eigen::MatrixXd& with_data, const Eigen::VectorXd& own_variances);

// Some of the data foretold by all the others, noise included, in closed form.
struct LeftOut {
    Eigen::VectorXd mean;
    Eigen::MatrixXd covariance;
    double log_density = 0.0;  // of these data under that prediction: what they add to the log density of the others
};
LeftOut left_out(const Conditioned& data, const Eigen::VectorXd& values, const std::vector<Eigen::Index>& rows);

// With an unknown drift: y ~ N(H b, K), nothing known of b (universal kriging; a column of ones gives ordinary kriging).
// H has a row for each datum; `drift_there` is the drift's row at the place asked for.
Estimate estimate_with_drift(const Conditioned& data, const Eigen::VectorXd& values, const Eigen::MatrixXd& drift,
                             const Eigen::VectorXd& with_data, double own_variance, const Eigen::VectorXd& drift_there);

// Lower triangle of K^-1 from the whitener; above the diagonal zero.
Eigen::MatrixXd lower_inverse(const Conditioned& data);

}  // namespace selvage::veins
