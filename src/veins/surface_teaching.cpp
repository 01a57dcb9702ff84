#include "veins/surface_teaching.h"

#include "base/parallel.h"
#include "veins/surface_model.h"

#include <algorithm>
#include <cassert>
#include <numeric>
#include <optional>

namespace selvage::veins {

namespace {

constexpr std::size_t heaviest_nodes = 16;
constexpr std::size_t data_together = 500;  // of very many: the nearest to any of the places, which tell how far a hole teaches

Eigen::VectorXd vector_of(const std::vector<double>& values) {
    return Eigen::Map<const Eigen::VectorXd>(values.data(), static_cast<Eigen::Index>(values.size()));
}

std::vector<std::size_t> heaviest(const std::vector<SurfaceNode>& nodes) {
    std::vector<std::size_t> order(nodes.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) { return nodes[a].weight > nodes[b].weight; });
    order.resize(std::min(order.size(), heaviest_nodes));
    return order;
}

}  // namespace

SurfaceTeaching::SurfaceTeaching(const SurfaceModel& model, const std::vector<PathPoint>& places, std::vector<double> weights,
                                 std::vector<double> error_variances)
    : weights_(vector_of(weights)), error_variances_(vector_of(error_variances)) {
    assert(weights.size() == places.size() && error_variances.size() == places.size());
    std::optional<SurfaceModel> local;
    if (model.neighbourhoods) {
        Places from_centre;
        for (const PathPoint& place : places) from_centre.emplace_back(place.chart_point.head<2>() - model.rows.centre);
        local = model_of_places(model, model.neighbourhoods->around_all(from_centre, data_together));
    }
    const SurfaceModel& solved = local ? *local : model;
    const std::vector<std::size_t> chosen = heaviest(solved.nodes);
    double sum = 0.0;
    for (const std::size_t k : chosen) sum += solved.nodes[k].weight;
    nodes_.resize(chosen.size());
    base::parallel_for(chosen.size(), [&](std::size_t k) {
        const SurfaceNode& node = solved.nodes[chosen[k]];
        nodes_[k] = {node.weight / sum, posterior_covariance(solved, node, places)};
    });
}

double SurfaceTeaching::variance_sum() const {
    double sum = 0.0;
    for (const Node& node : nodes_) sum += node.weight * weights_.dot(node.covariance.diagonal());
    return sum;
}

std::vector<double> SurfaceTeaching::gains() const {
    Eigen::VectorXd gains = Eigen::VectorXd::Zero(weights_.size());
    for (const Node& node : nodes_) {
        const Eigen::VectorXd measured = node.covariance.diagonal() + error_variances_;
        gains += node.weight * (node.covariance.cwiseAbs2() * weights_).cwiseQuotient(measured);
    }
    return {gains.data(), gains.data() + gains.size()};
}

void SurfaceTeaching::drill(std::size_t place) {
    const auto at = static_cast<Eigen::Index>(place);
    for (Node& node : nodes_) {
        const Eigen::VectorXd column = node.covariance.col(at);
        node.covariance -= column * column.transpose() / (column(at) + error_variances_(at));
    }
}

}  // namespace selvage::veins
