#include "veins/presence.h"

#include "base/parallel.h"
#include "numerics/normal_mixture.h"
#include "veins/covariance.h"
#include "veins/gaussian_process.h"

#include <Eigen/Cholesky>

#include <array>
#include <cassert>
#include <cmath>
#include <utility>

namespace selvage::veins {

namespace {

using numerics::log_normal_cumulative;
using numerics::normal_cumulative;
using numerics::normal_density;

constexpr std::array<double, 3> ranges_in_spacings{1.5, 3.5, 8.0};
constexpr std::array<double, 3> range_log_weights{-0.5, 0.0, -0.5};
constexpr std::array<double, 3> sds{1.0, 3.0, 10.0};
constexpr double mean_share = 0.67, mean_sd_share = 0.7;  // of sqrt(1 + sd^2)
constexpr int sweeps = 5;                                 // sites settle to 0.1 % in four
constexpr double least_precision = 1e-8;
constexpr double least_weight = 1e-6;
constexpr double unsure_floor = 0.1, unsure_share = 0.8;  // what a likely pick is believed

struct Node {
    double weight = 0.0;
    Kernel kernel;
    double mean = 0.0, mean_variance = 0.0;
    Conditioned data;  // of the sites
};

// What one site's likelihood makes of a normal cavity (m, v): log of its integral, new mean and variance.
struct Matched {
    double log_integral = 0.0, mean = 0.0, variance = 1.0;
};

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

// The posterior of the hidden values given the sites, about the prior's mean.
struct Posterior {
    Eigen::MatrixXd covariance;
    Eigen::VectorXd mean;
    double log_determinant = 0.0;  // of 1 + S^1/2 K S^1/2
};

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

struct Cavity {
    double precision = 1.0, shift = 0.0;
    double variance() const { return 1.0 / precision; }
    double mean() const { return shift / precision; }
};

Cavity cavity_of(const Posterior& posterior, const PropagatedSites& sites, Eigen::Index i) {
    const double variance = posterior.covariance(i, i);
    return {1.0 / variance - sites.precision(i), posterior.mean(i) / variance - sites.shift(i)};
}

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

Eigen::MatrixXd prior_covariance(const Node& node, const std::vector<PresenceDatum>& data) {
    const auto n = static_cast<Eigen::Index>(data.size());
    Eigen::MatrixXd covariance(n, n);
    for (Eigen::Index j = 0; j < n; ++j)
        for (Eigen::Index i = j; i < n; ++i)
            covariance(i, j) = covariance(j, i) =
                node.mean_variance +
                kernel_at(node.kernel, data[static_cast<std::size_t>(i)].place - data[static_cast<std::size_t>(j)].place).value;
    return covariance;
}

std::vector<std::pair<Node, double>> prior_nodes(double spacing) {
    std::vector<std::pair<Node, double>> nodes;
    for (std::size_t i = 0; i < ranges_in_spacings.size(); ++i)
        for (const double sd : sds) {
            const double range = ranges_in_spacings[i] * spacing, total = std::sqrt(1.0 + sd * sd);
            Node node;
            node.kernel.sill = sd * sd;
            node.kernel.metric = Eigen::Matrix2d::Identity() / (range * range);
            node.mean = mean_share * total;
            node.mean_variance = std::pow(mean_sd_share * total, 2);
            nodes.emplace_back(node, range_log_weights[i]);
        }
    return nodes;
}

}  // namespace

struct Presence {
    std::vector<PresenceDatum> data;
    std::vector<Node> nodes;
};

PropagatedSites propagate(const Eigen::MatrixXd& prior, double mean, const std::vector<PresenceDatum>& data) {
    const Eigen::Index n = prior.rows();
    PropagatedSites sites{Eigen::VectorXd::Zero(n), Eigen::VectorXd::Zero(n), 0.0};
    Posterior posterior{prior, Eigen::VectorXd::Zero(n), 0.0};
    for (int sweep = 0; sweep < sweeps; ++sweep) {
        for (Eigen::Index i = 0; i < n; ++i) {
            const Cavity cavity = cavity_of(posterior, sites, i);
            const Matched tilted = matched(data[static_cast<std::size_t>(i)], cavity.mean() + mean, cavity.variance());
            const double precision = std::max(least_precision, 1.0 / tilted.variance - cavity.precision);
            const double change = precision - sites.precision(i);
            sites.precision(i) = precision;
            sites.shift(i) = (tilted.mean - mean) * (cavity.precision + precision) - cavity.shift;
            const Eigen::VectorXd column = posterior.covariance.col(i);
            posterior.covariance -= (change / (1.0 + change * column(i))) * column * column.transpose();
            posterior.mean = posterior.covariance * sites.shift;
        }
        posterior = posterior_of(prior, sites);  // afresh: the updates' rounding does not add up
    }
    sites.log_evidence = log_evidence_of(posterior, sites, mean, data);
    return sites;
}

std::shared_ptr<const Presence> fit_presence(std::vector<PresenceDatum> data, double spacing) {
    assert(spacing > 0.0);
    auto presence = std::make_shared<Presence>();
    presence->data = std::move(data);
    std::vector<std::pair<Node, double>> nodes = prior_nodes(spacing);
    base::parallel_for(nodes.size(), [&](std::size_t k) {
        Node& node = nodes[k].first;
        if (presence->data.empty()) return;
        Eigen::MatrixXd covariance = prior_covariance(node, presence->data);
        const PropagatedSites sites = propagate(covariance, node.mean, presence->data);
        nodes[k].second += sites.log_evidence;
        covariance.diagonal() += sites.precision.cwiseInverse();
        auto solved = condition(std::move(covariance), sites.shift.cwiseQuotient(sites.precision));
        assert(solved && "the sites keep the matrix positive definite");
        node.data = std::move(*solved);
    });
    std::vector<double> log_weights;
    for (const auto& [node, log_weight] : nodes) log_weights.push_back(log_weight);
    const std::vector<double> weights = numerics::weights_from_logs(log_weights);
    for (std::size_t k = 0; k < nodes.size(); ++k) {
        if (weights[k] < least_weight) continue;
        nodes[k].first.weight = weights[k];
        presence->nodes.push_back(std::move(nodes[k].first));
    }
    return presence;
}

std::vector<double> presences_at(const Presence& presence, const std::vector<Eigen::Vector2d>& places) {
    const auto count = static_cast<Eigen::Index>(places.size()), n = static_cast<Eigen::Index>(presence.data.size());
    std::vector<double> chances(places.size(), 0.0);
    for (const Node& node : presence.nodes) {
        const double own = node.kernel.sill + node.mean_variance;
        std::vector<Estimate> there(places.size(), {0.0, own});
        if (n > 0) {
            Eigen::MatrixXd covariances(n, count);
            for (Eigen::Index j = 0; j < count; ++j)
                for (Eigen::Index i = 0; i < n; ++i)
                    covariances(i, j) =
                        node.mean_variance + kernel_at(node.kernel, places[static_cast<std::size_t>(j)] -
                                                                        presence.data[static_cast<std::size_t>(i)].place)
                                                 .value;
            there = estimates(node.data, covariances, Eigen::VectorXd::Constant(count, own));
        }
        for (std::size_t j = 0; j < places.size(); ++j)
            chances[j] += node.weight * normal_cumulative((node.mean + there[j].mean) / std::sqrt(1.0 + there[j].variance));
    }
    return chances;
}

double presence_at(const Presence& presence, const Eigen::Vector2d& place) { return presences_at(presence, {place}).front(); }

}  // namespace selvage::veins
