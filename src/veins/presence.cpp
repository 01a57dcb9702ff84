#include "veins/presence.h"

#include "base/parallel.h"
#include "numerics/normal_mixture.h"
#include "veins/covariance.h"
#include "veins/gaussian_process.h"
#include "veins/neighbourhood.h"
#include "veins/presence_propagation.h"

#include <algorithm>
#include <array>
#include <cassert>
#include <cmath>
#include <numeric>
#include <optional>
#include <utility>

namespace selvage::veins {

namespace {

using numerics::normal_cumulative;

constexpr std::array<double, 3> ranges_in_spacings{1.5, 3.5, 8.0};
constexpr std::array<double, 3> range_log_weights{-0.5, 0.0, -0.5};
constexpr std::array<double, 3> sds{1.0, 3.0, 10.0};
constexpr double mean_share = 0.67, mean_sd_share = 0.7;  // of sqrt(1 + sd^2)
constexpr double least_weight = 1e-6;
constexpr std::size_t earlier_neighbours = 20;                      // for the weights of very many data
constexpr std::size_t nearest_for_site = 26, spread_for_site = 15;  // its own datum is one of the nearest
constexpr std::size_t nearest_data = 30, spread_data = 20;          // for a chance

struct Node {
    double weight = 0.0;
    Kernel kernel;
    double mean = 0.0, mean_variance = 0.0;
    Eigen::VectorXd site_precision, site_shift;
    Conditioned data;  // of the sites; empty where neighbourhoods answer
};

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
    std::optional<Neighbourhoods> neighbourhoods;  // of very many data
    Eigen::Vector2d middle = Eigen::Vector2d::Zero();
};

namespace {

// The hidden values given the node's sites.
void solve(Node& node, const std::vector<PresenceDatum>& data) {
    Eigen::MatrixXd covariance = prior_covariance(node, data);
    covariance.diagonal() += node.site_precision.cwiseInverse();
    auto solved = condition(std::move(covariance), node.site_shift.cwiseQuotient(node.site_precision));
    assert(solved && "the sites keep the matrix positive definite");
    node.data = std::move(*solved);
}

double solve_exactly(Node& node, const std::vector<PresenceDatum>& data) {
    PropagatedSites sites = propagate(prior_covariance(node, data), node.mean, data);
    node.site_precision = std::move(sites.precision);
    node.site_shift = std::move(sites.shift);
    solve(node, data);
    return sites.log_evidence;
}

// Log of the chance of the last datum being what it is, from the others.
double log_chance_of_last(Node node, std::vector<PresenceDatum> data) {
    const PresenceDatum last = data.back();
    data.pop_back();
    Estimate there{0.0, node.kernel.sill + node.mean_variance};
    if (!data.empty()) {
        solve_exactly(node, data);
        Eigen::VectorXd covariances(static_cast<Eigen::Index>(data.size()));
        for (std::size_t i = 0; i < data.size(); ++i)
            covariances(static_cast<Eigen::Index>(i)) =
                node.mean_variance + kernel_at(node.kernel, last.place - data[i].place).value;
        there = estimate(node.data, covariances, there.variance);
    }
    return matched(last, node.mean + there.mean, there.variance).log_integral;
}

// Sites of a node, each from propagation over its own neighbourhood.
void find_sites(Node& node, const std::vector<PresenceDatum>& data, const Neighbourhoods& neighbourhoods) {
    const auto n = static_cast<Eigen::Index>(data.size());
    node.site_precision.resize(n);
    node.site_shift.resize(n);
    base::parallel_for(data.size(), [&](std::size_t i) {
        const std::vector<std::size_t> about = neighbourhoods.around(i);
        const std::vector<PresenceDatum> some = picked(data, about);
        const PropagatedSites sites = propagate(prior_covariance(node, some), node.mean, some);
        const auto own = static_cast<Eigen::Index>(position_in(about, i));
        node.site_precision(static_cast<Eigen::Index>(i)) = sites.precision(own);
        node.site_shift(static_cast<Eigen::Index>(i)) = sites.shift(own);
    });
}

void keep_heaviest(Presence& presence, std::vector<std::pair<Node, double>> nodes) {
    std::vector<double> log_weights;
    for (const auto& [node, log_weight] : nodes) log_weights.push_back(log_weight);
    const std::vector<double> weights = numerics::weights_from_logs(log_weights);
    for (std::size_t k = 0; k < nodes.size(); ++k) {
        if (weights[k] < least_weight) continue;
        nodes[k].first.weight = weights[k];
        presence.nodes.push_back(std::move(nodes[k].first));
    }
}

void fit_by_neighbours(Presence& presence, std::vector<std::pair<Node, double>> nodes) {
    Places places;
    for (const PresenceDatum& datum : presence.data) places.push_back(datum.place);
    places = from_middle(places, presence.middle);
    const auto groups = groups_of_order(places, spread_order(places, places.size()), earlier_neighbours);
    for (auto& [node, log_weight] : nodes) {
        std::vector<double> logs(groups.size());
        base::parallel_for(groups.size(), [&, &one = node](std::size_t i) {
            logs[i] = log_chance_of_last(one, picked(presence.data, groups[i]));
        });
        for (const double log : logs) log_weight += log;
    }
    keep_heaviest(presence, std::move(nodes));
    const Neighbourhoods for_sites(places, nearest_for_site, spread_for_site);
    for (Node& node : presence.nodes) find_sites(node, presence.data, for_sites);
    presence.neighbourhoods = Neighbourhoods(std::move(places), nearest_data, spread_data);
}

// The same nodes and sites at some of the data alone.
Presence presence_of(const Presence& presence, const std::vector<std::size_t>& data) {
    Presence local;
    local.data = picked(presence.data, data);
    const std::vector<Eigen::Index> numbers(data.begin(), data.end());
    for (const Node& node : presence.nodes) {
        local.nodes.push_back({node.weight,
                               node.kernel,
                               node.mean,
                               node.mean_variance,
                               node.site_precision(numbers),
                               node.site_shift(numbers),
                               {}});
        solve(local.nodes.back(), local.data);
    }
    return local;
}

}  // namespace

std::shared_ptr<const Presence> fit_presence(std::vector<PresenceDatum> data, double spacing, std::size_t most_exact) {
    assert(spacing > 0.0);
    auto presence = std::make_shared<Presence>();
    presence->data = std::move(data);
    std::vector<std::pair<Node, double>> nodes = prior_nodes(spacing);
    if (presence->data.size() > most_exact) {
        fit_by_neighbours(*presence, std::move(nodes));
        return presence;
    }
    base::parallel_for(nodes.size(), [&](std::size_t k) {
        if (!presence->data.empty()) nodes[k].second += solve_exactly(nodes[k].first, presence->data);
    });
    keep_heaviest(*presence, std::move(nodes));
    return presence;
}

std::vector<double> presences_at(const Presence& presence, const std::vector<Eigen::Vector2d>& places) {
    if (presence.neighbourhoods) {
        Places counted;
        for (const Eigen::Vector2d& place : places) counted.push_back(place - presence.middle);
        return answers_by_cell<double>(*presence.neighbourhoods, counted, [&](const Cell& cell) {
            return presences_at(presence_of(presence, presence.neighbourhoods->around(cell.middle)), picked(places, cell.asked));
        });
    }
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

namespace {

// Each node foretells a datum by its cavity, and weighs as it would have without it: its weight over the chance that it gave to
// what came.
std::vector<double> leave_one_out(const Presence& presence, const std::vector<std::size_t>& wanted) {
    std::vector<std::vector<double>> chances(wanted.size()), log_weights(wanted.size());
    for (const Node& node : presence.nodes) {
        const PropagatedSites sites{node.site_precision, node.site_shift, 0.0};
        const Posterior posterior = posterior_of(prior_covariance(node, presence.data), sites);
        for (std::size_t i = 0; i < wanted.size(); ++i) {
            const Cavity cavity = cavity_of(posterior, sites, static_cast<Eigen::Index>(wanted[i]));
            const double mean = node.mean + cavity.mean(), variance = cavity.variance();
            chances[i].push_back(normal_cumulative(mean / std::sqrt(1.0 + variance)));
            log_weights[i].push_back(std::log(node.weight) - matched(presence.data[wanted[i]], mean, variance).log_integral);
        }
    }
    std::vector<double> said;
    for (std::size_t i = 0; i < wanted.size(); ++i) {
        const std::vector<double> weights = numerics::weights_from_logs(log_weights[i]);
        said.push_back(std::inner_product(weights.begin(), weights.end(), chances[i].begin(), 0.0));
    }
    return said;
}

}  // namespace

std::vector<double> leave_one_out_presences(const Presence& presence) {
    std::vector<std::size_t> all(presence.data.size());
    std::iota(all.begin(), all.end(), std::size_t{0});
    if (!presence.neighbourhoods) return leave_one_out(presence, all);
    std::vector<double> chances(all.size());
    base::parallel_for(all.size(), [&](std::size_t i) {
        const std::vector<std::size_t> about = presence.neighbourhoods->around(i);
        chances[i] = leave_one_out(presence_of(presence, about), {position_in(about, i)}).front();
    });
    return chances;
}

double presence_at(const Presence& presence, const Eigen::Vector2d& place) { return presences_at(presence, {place}).front(); }

}  // namespace selvage::veins
