#include "veins/presence_propagation.h"

#include "numerics/normal_mixture.h"

#include <Eigen/Cholesky>

#include <algorithm>
#include <cmath>

namespace selvage::veins {

namespace {

using numerics::log_normal_cumulative;
using numerics::normal_cumulative;
using numerics::normal_density;

constexpr int sweeps = 5;  // sites settle to 0.1 % in four
constexpr double least_precision = 1e-8;
constexpr double unsure_floor = 0.1, unsure_share = 0.8;  // what a likely pick is believed

}  // namespace

Matched matched(const PresenceDatum& datum, double mean, double variance) {
    const double y = datum.hit ? 1.0 : -1.0, d = std::sqrt(1.0 + variance), z = y * mean / d;
    double log_integral = log_normal_cumulative(z);
    double ratio = std::exp(-0.5 * z * z - 0.91893853320467274178 - log_integral);  // phi / Phi
    if (!datum.sure) {
        const double integral = unsure_floor + unsure_share * normal_cumulative(z);
        log_integral = std::log(integral);
        ratio = unsure_share * normal_density(z) / integral;
    }
    return {log_integral, mean + y * variance * ratio / d, variance - variance * variance * ratio * (z + ratio) / (d * d)};
}

Posterior posterior_of(const Eigen::MatrixXd& prior, const PropagatedSites& sites) {
    const Eigen::VectorXd root = sites.precision.cwiseSqrt();
    Eigen::MatrixXd b = root.asDiagonal() * prior * root.asDiagonal();
    b.diagonal().array() += 1.0;
    const Eigen::LLT<Eigen::MatrixXd> factor(b);
    const Eigen::MatrixXd half = factor.matrixL().solve(root.asDiagonal() * prior);
    Posterior posterior;
    posterior.covariance = prior - half.transpose() * half;
    posterior.mean = posterior.covariance * sites.shift;
    posterior.log_determinant = 2.0 * factor.matrixLLT().diagonal().array().log().sum();
    return posterior;
}

Cavity cavity_of(const Posterior& posterior, const PropagatedSites& sites, Eigen::Index i) {
    const double variance = posterior.covariance(i, i);
    return {1.0 / variance - sites.precision(i), posterior.mean(i) / variance - sites.shift(i)};
}

namespace {

// Rasmussen & Williams 2006, eq. 3.65, about the prior's mean.
double log_evidence_of(const Posterior& posterior, const PropagatedSites& sites, double mean,
                       const std::vector<PresenceDatum>& data) {
    double log_evidence = -0.5 * posterior.log_determinant + 0.5 * sites.shift.dot(posterior.mean);
    for (Eigen::Index i = 0; i < sites.precision.size(); ++i) {
        const Cavity cavity = cavity_of(posterior, sites, i);
        const double both = cavity.precision + sites.precision(i);
        log_evidence +=
            matched(data[static_cast<std::size_t>(i)], cavity.mean() + mean, cavity.variance()).log_integral +
            0.5 * std::log(both / cavity.precision) - 0.5 * sites.shift(i) * sites.shift(i) / both +
            0.5 * cavity.mean() * (sites.precision(i) * cavity.shift - 2.0 * cavity.precision * sites.shift(i)) / both;
    }
    return log_evidence;
}

}  // namespace

PropagatedSites propagate(const Eigen::MatrixXd& prior, double mean, const std::vector<PresenceDatum>& data) {
    constexpr Eigen::Index block = 32;  // sites whose changes reach the whole covariance in one product
    const Eigen::Index n = prior.rows();
    PropagatedSites sites{Eigen::VectorXd::Zero(n), Eigen::VectorXd::Zero(n), 0.0};
    Eigen::MatrixXd covariance = prior, columns(n, std::min(block, n));
    Eigen::VectorXd shares(columns.cols());  // of each changed site's column x column', to be taken away
    for (int sweep = 0; sweep < sweeps; ++sweep)
        for (Eigen::Index first = 0; first < n; first += block) {
            const Eigen::Index count = std::min(block, n - first);
            for (Eigen::Index k = 0; k < count; ++k) {
                const Eigen::Index i = first + k;
                Eigen::VectorXd column = covariance.col(i);
                column.noalias() -= columns.leftCols(k) * shares.head(k).cwiseProduct(columns.row(i).head(k).transpose());
                const Cavity cavity{1.0 / column(i) - sites.precision(i), column.dot(sites.shift) / column(i) - sites.shift(i)};
                const Matched tilted = matched(data[static_cast<std::size_t>(i)], cavity.mean() + mean, cavity.variance());
                const double precision = std::max(least_precision, 1.0 / tilted.variance - cavity.precision);
                const double change = precision - sites.precision(i);
                sites.precision(i) = precision;
                sites.shift(i) = (tilted.mean - mean) * (cavity.precision + precision) - cavity.shift;
                shares(k) = change / (1.0 + change * column(i));
                columns.col(k) = column;
            }
            const Eigen::MatrixXd scaled = columns.leftCols(count) * shares.head(count).asDiagonal();
            covariance.triangularView<Eigen::Lower>() -= scaled * columns.leftCols(count).transpose();
            covariance.triangularView<Eigen::StrictlyUpper>() = covariance.transpose();
        }
    sites.log_evidence = log_evidence_of(posterior_of(prior, sites), sites, mean, data);  // afresh: rounding does not add up
    return sites;
}

}  // namespace selvage::veins
