#include "veins/log_field.h"

#include "base/parallel.h"
#include "veins/covariance.h"
#include "veins/gaussian_process.h"
#include "veins/neighbourhood.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <optional>

namespace selvage::veins {

namespace {

struct Node {
    double weight = 0.0;
    Kernel kernel;
    double nugget_variance = 0.0;
    Conditioned data;  // empty in a field that answers by neighbourhoods
};

}  // namespace

struct LogField {
    std::vector<LogDatum> data;
    Eigen::VectorXd values;  // logs less the prior's mean
    double mean = 0.0, mean_variance = 0.0;
    std::vector<Node> nodes;
    std::optional<Neighbourhoods> neighbourhoods;  // of very many data
    Eigen::Vector2d middle = Eigen::Vector2d::Zero();
};

namespace {

constexpr std::size_t earlier_neighbours = 20, nearest_data = 30, spread_data = 30;
constexpr double least_weight = 1e-6;  // of a node worth keeping; what all the others lack is less than 1e-4

Eigen::MatrixXd covariance_of(const LogField& field, const Node& node) {
    const auto n = static_cast<Eigen::Index>(field.data.size());
    Eigen::MatrixXd matrix(n, n);
    for (Eigen::Index j = 0; j < n; ++j) {
        const LogDatum& b = field.data[static_cast<std::size_t>(j)];
        for (Eigen::Index i = j; i < n; ++i)
            matrix(i, j) =
                field.mean_variance + kernel_at(node.kernel, field.data[static_cast<std::size_t>(i)].place - b.place).value;
        matrix(j, j) += node.nugget_variance + b.own_variance;
    }
    return matrix;
}

// Nodes before the data, with the logs of their weights.
std::vector<std::pair<Node, double>> prior_nodes(double spacing, const LogFieldPrior& prior) {
    std::vector<std::pair<Node, double>> nodes;
    for (std::size_t i = 0; i < 3; ++i)
        for (std::size_t j = 0; j < 3; ++j)
            for (std::size_t k = 0; k < 3; ++k) {
                const double range = prior.range_in_spacings[i] * spacing;
                Node node;
                node.kernel.sill = prior.sd[j] * prior.sd[j];
                node.kernel.metric = Eigen::Matrix2d::Identity() / (range * range);
                node.nugget_variance = prior.nugget_sd[k] * prior.nugget_sd[k];
                nodes.emplace_back(node, prior.log_weight[i] + prior.log_weight[j] + prior.log_weight[k]);
            }
    return nodes;
}

Eigen::VectorXd correlations_with_data(const LogField& field, const Kernel& kernel, const Eigen::Vector2d& place) {
    Eigen::VectorXd correlations(static_cast<Eigen::Index>(field.data.size()));
    for (std::size_t i = 0; i < field.data.size(); ++i)
        correlations(static_cast<Eigen::Index>(i)) = kernel_at(kernel, place - field.data[i].place).value / kernel.sill;
    return correlations;
}

LogField field_without_nodes(std::vector<LogDatum> data, double mean, double mean_variance) {
    LogField field;
    field.data = std::move(data);
    field.mean = mean;
    field.mean_variance = mean_variance;
    field.values.resize(static_cast<Eigen::Index>(field.data.size()));
    for (std::size_t i = 0; i < field.data.size(); ++i)
        field.values(static_cast<Eigen::Index>(i)) = field.data[i].log_value - field.mean;
    return field;
}

void solve(const LogField& field, Node& node) {
    auto solved = condition(covariance_of(field, node), field.values);
    assert(solved && "the nugget keeps the matrix positive definite");
    node.data = std::move(*solved);
}

// The same nodes given some of the data alone.
LogField field_of(const LogField& field, const std::vector<std::size_t>& data) {
    LogField local = field_without_nodes(picked(field.data, data), field.mean, field.mean_variance);
    for (const Node& node : field.nodes) {
        local.nodes.push_back({node.weight, node.kernel, node.nugget_variance, {}});
        solve(local, local.nodes.back());
    }
    return local;
}

// Log densities of the data under each node by neighbours, and the field's neighbourhoods.
void weigh_by_neighbours(LogField& field, std::vector<std::pair<Node, double>>& nodes) {
    Places places;
    for (const LogDatum& datum : field.data) places.push_back(datum.place);
    places = from_middle(places, field.middle);
    std::vector<LogField> groups;
    for (const std::vector<std::size_t>& group : groups_of_order(places, spread_order(places, places.size()), earlier_neighbours))
        groups.push_back(field_without_nodes(picked(field.data, group), field.mean, field.mean_variance));
    base::parallel_for(nodes.size(), [&](std::size_t k) {
        for (const LogField& group : groups)
            nodes[k].second += log_density_of_last(covariance_of(group, nodes[k].first), group.values, 1);
    });
    field.neighbourhoods = Neighbourhoods(std::move(places), nearest_data, spread_data);
}

}  // namespace

std::shared_ptr<const LogField> fit_log_field(std::vector<LogDatum> data, double spacing, const LogFieldPrior& prior,
                                              std::size_t most_exact) {
    assert(!data.empty() && spacing > 0.0);
    auto field = std::make_shared<LogField>(field_without_nodes(std::move(data), prior.mean, prior.mean_sd * prior.mean_sd));
    std::vector<std::pair<Node, double>> nodes = prior_nodes(spacing, prior);
    if (field->data.size() > most_exact)
        weigh_by_neighbours(*field, nodes);
    else
        base::parallel_for(nodes.size(), [&](std::size_t k) {
            solve(*field, nodes[k].first);
            nodes[k].second += nodes[k].first.data.log_density;
        });
    std::vector<double> log_weights;
    for (const auto& [node, log_weight] : nodes) log_weights.push_back(log_weight);
    const std::vector<double> weights = numerics::weights_from_logs(log_weights);
    for (std::size_t k = 0; k < nodes.size(); ++k) {
        if (weights[k] < least_weight) continue;
        nodes[k].first.weight = weights[k];
        field->nodes.push_back(std::move(nodes[k].first));
    }
    return field;
}

numerics::NormalMixture log_value_at(const LogField& field, const Eigen::Vector2d& place) {
    return log_values_at(field, {place}).front();
}

std::vector<numerics::NormalMixture> log_values_at(const LogField& field, const std::vector<Eigen::Vector2d>& places) {
    if (field.neighbourhoods) {
        Places counted;
        for (const Eigen::Vector2d& place : places) counted.push_back(place - field.middle);
        return answers_by_cell<numerics::NormalMixture>(*field.neighbourhoods, counted, [&](const Cell& cell) {
            return log_values_at(field_of(field, field.neighbourhoods->around(cell.middle)), picked(places, cell.asked));
        });
    }
    const auto count = static_cast<Eigen::Index>(places.size());
    std::vector<numerics::NormalMixture> mixtures(places.size());
    Eigen::MatrixXd correlations(field.values.size(), count);
    Eigen::Matrix2d metric = Eigen::Matrix2d::Zero();  // that they were made for: several nodes in a row share one
    for (const Node& node : field.nodes) {
        if (node.kernel.metric != metric) {
            metric = node.kernel.metric;
            for (Eigen::Index i = 0; i < count; ++i)
                correlations.col(i) = correlations_with_data(field, node.kernel, places[static_cast<std::size_t>(i)]);
        }
        const Eigen::MatrixXd covariances = ((node.kernel.sill * correlations).array() + field.mean_variance).matrix();
        const Eigen::VectorXd own = Eigen::VectorXd::Constant(count, node.kernel.sill + field.mean_variance);
        const std::vector<Estimate> there = estimates(node.data, covariances, own);
        for (std::size_t i = 0; i < places.size(); ++i) {
            mixtures[i].weights.push_back(node.weight);
            mixtures[i].means.push_back(field.mean + there[i].mean);
            mixtures[i].sds.push_back(std::sqrt(there[i].variance + node.nugget_variance));
        }
    }
    return mixtures;
}

double smooth_log_at(const LogField& field, const Eigen::Vector2d& place) { return log_value_at(field, place).mean(); }

numerics::NormalMixture leave_one_out_log(const LogField& field, std::size_t datum) {
    assert(datum < field.data.size());
    if (field.neighbourhoods) {
        const std::vector<std::size_t> about = field.neighbourhoods->around(datum);
        return leave_one_out_log(field_of(field, about), position_in(about, datum));
    }
    numerics::NormalMixture mixture;
    std::vector<double> log_weights;
    for (const Node& node : field.nodes) {
        const LeftOut left = left_out(node.data, field.values, {static_cast<Eigen::Index>(datum)});
        mixture.means.push_back(field.mean + left.mean(0));
        mixture.sds.push_back(std::sqrt(left.covariance(0, 0)));
        log_weights.push_back(std::log(node.weight) - left.log_density);
    }
    mixture.weights = numerics::weights_from_logs(log_weights);
    return mixture;
}

}  // namespace selvage::veins
