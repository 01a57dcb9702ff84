#include "veins/surface_budget.h"

#include "veins/surface_model.h"

#include <Eigen/Cholesky>

#include <algorithm>
#include <cassert>
#include <cmath>

namespace selvage::veins {

namespace {

// The height over the path under one node: what it is made from, and the weight of each row in it.
struct NodeForecast {
    Eigen::VectorXd with_surface, with_all;  // covariances with the rows: of the surface alone, and with shared errors
    Eigen::VectorXd weights;                 // K^-1 with_all
    double mean = 0.0, noise = 1.0;          // noise: f_n^2
};

struct OnHeight {
    std::map<paths::SourceId, std::pair<paths::ErrorSource, double>> effects;  // by source, m of height per unit
    SharedError shared;
};

OnHeight on_height(const SurfaceModel& model, const PathPoint& point) {
    OnHeight asked;
    std::vector<std::pair<paths::ErrorSource, double>> effects;
    for (const ChartEffect& effect : point.effects) {
        effects.emplace_back(effect.source, point.slope_row.dot(effect.displacement));
        asked.effects[effect.source.id] = effects.back();
    }
    asked.shared = shared_error(model.rows, effects);
    return asked;
}

NodeForecast forecast_of(const SurfaceModel& model, const SurfaceNode& node, const Eigen::Vector2d& place,
                         const OnHeight& asked) {
    NodeForecast forecast;
    forecast.noise = node.guess.noise_factor * node.guess.noise_factor;
    forecast.with_surface = height_with_rows(model.rows, node.kernel, place);
    forecast.with_all = forecast.with_surface + asked.shared.unscaled + forecast.noise * asked.shared.scaled;
    const auto whitener = node.data.whitener.triangularView<Eigen::Lower>();
    forecast.weights = whitener.transpose() * Eigen::VectorXd(whitener * forecast.with_all);
    forecast.mean = forecast.with_all.dot(node.data.weights);
    return forecast;
}

// By how much a unit of a source moves the rows, weighed as they are in the forecast.
double weighed_effect(const RowSource& source, const Eigen::VectorXd& weights) {
    double sum = 0.0;
    for (const auto& [row, effect] : source.effects) sum += weights(row) * effect;
    return sum;
}

double factor_of(const paths::ErrorSource& source, double noise) { return is_scaled(source) ? noise : 1.0; }

// Adds a node's part; gives how much of the data's covariance its sources take, for the shape.
double add_sources(SurfaceBudget& budget, const SurfaceModel& model, const SurfaceNode& node, const NodeForecast& forecast,
                   const OnHeight& asked) {
    double in_data = 0.0;
    std::map<paths::SourceId, std::pair<paths::ErrorSource, double>> unmet = asked.effects;  // that no row has
    const auto add = [&](const paths::ErrorSource& source, double net) {
        const double variance = node.weight * factor_of(source, forecast.noise) * std::pow(source.sd * net, 2);
        if (paths::is_deviation(source.id.kind))
            budget.deviation += variance;
        else if (source.id.kind == paths::SourceKind::core_turn)
            budget.core += variance;
        else
            budget.sources[source.id] += variance;
    };
    for (const RowSource& source : model.rows.sources) {
        const double of_rows = weighed_effect(source, forecast.weights);
        in_data += factor_of(source.source, forecast.noise) * std::pow(source.source.sd * of_rows, 2);
        const auto own = asked.effects.find(source.source.id);
        add(source.source, (own == asked.effects.end() ? 0.0 : own->second.second) - of_rows);
        unmet.erase(source.source.id);
    }
    for (const auto& [id, effect] : unmet) add(effect.first, effect.second);
    return in_data;
}

void add_node(SurfaceBudget& budget, const SurfaceModel& model, const SurfaceNode& node, const Eigen::Vector2d& place,
              const NodeForecast& forecast, const OnHeight& asked) {
    const SurfaceRows& rows = model.rows;
    const Eigen::VectorXd& weights = forecast.weights;
    const double from_sources = add_sources(budget, model, node, forecast, asked);
    double picks = 0.0, core = 0.0;
    for (const RowPlace& datum : rows.places)
        for (const Eigen::Index row : rows_of(datum)) {
            const bool is_height = datum.has_height && row == datum.first;
            const double own = rows.own_unscaled(row) + forecast.noise * rows.own_scaled(row) +
                               node.guess.core_sd * node.guess.core_sd * rows.core(row);
            (is_height ? picks : core) += weights(row) * weights(row) * own;
        }
    const double of_rows = weights.dot(forecast.with_all) - from_sources - picks - core;  // w'(K_f + HBH')w
    budget.shape +=
        node.weight * (height_variance(model.rows, node.kernel, place) - 2.0 * weights.dot(forecast.with_surface) + of_rows);
    budget.picks += node.weight * picks;
    budget.core += node.weight * core;
}

// Variance of one node with some sources remeasured: the covariance with their part of it replaced.
double node_variance(const SurfaceModel& model, const SurfaceNode& node, const Eigen::Vector2d& place, const PathPoint& point,
                     const std::map<paths::SourceId, double>& remeasured) {
    SurfaceRows rows = model.rows;
    for (RowSource& source : rows.sources) {
        const auto found = remeasured.find(source.source.id);
        if (found == remeasured.end()) continue;
        Eigen::MatrixXd& matrix = is_scaled(source.source) ? rows.scaled : rows.unscaled;
        const double change = found->second * found->second - source.source.sd * source.source.sd;
        for (const auto& [row, effect] : source.effects)
            for (const auto& [column, other] : source.effects)
                if (column <= row) matrix(row, column) += effect * change * other;
        source.source.sd = found->second;
    }
    PathPoint asked = point;
    for (ChartEffect& effect : asked.effects)
        if (const auto found = remeasured.find(effect.source.id); found != remeasured.end()) effect.source.sd = found->second;
    SurfaceModel one{model.rules, model.spacing, std::move(rows), {}, {}, {}, {}};
    const SurfaceNode solved = surface_node(one.rows, {node.guess, 1.0});
    const OnHeight effects = on_height(one, asked);
    const NodeForecast forecast = forecast_of(one, solved, place, effects);
    double own = height_variance(model.rows, node.kernel, place);
    for (const auto& [id, effect] : effects.effects)
        own += factor_of(effect.first, forecast.noise) * std::pow(effect.first.sd * effect.second, 2);
    return own - forecast.weights.dot(forecast.with_all);
}

struct Spread {
    double mean = 0.0, square = 0.0;
    void add(double weight, double value) {
        mean += weight * value;
        square += weight * value * value;
    }
    double variance() const { return std::max(0.0, square - mean * mean); }
};

}  // namespace

double SurfaceBudget::total() const {
    double sum = shape + picks + core + deviation + settings;
    for (const auto& [id, variance] : sources) sum += variance;
    return sum;
}

SurfaceBudget budget_over_path(const SurfaceModel& model, const PathPoint& point) {
    assert(model.rules.shared_sources);
    if (model.neighbourhoods) return budget_over_path(model_about(model, point.chart_point.head<2>()), point);
    const Eigen::Vector2d place = point.chart_point.head<2>() - model.rows.centre;
    const OnHeight asked = on_height(model, point);
    SurfaceBudget budget;
    Spread means;
    for (const SurfaceNode& node : model.nodes) {
        const NodeForecast forecast = forecast_of(model, node, place, asked);
        add_node(budget, model, node, place, forecast, asked);
        means.add(node.weight, forecast.mean);
    }
    budget.settings = means.variance();
    return budget;
}

double variance_with(const SurfaceModel& model, const PathPoint& point, const std::map<paths::SourceId, double>& remeasured) {
    if (model.neighbourhoods) return variance_with(model_about(model, point.chart_point.head<2>()), point, remeasured);
    const Eigen::Vector2d place = point.chart_point.head<2>() - model.rows.centre;
    const OnHeight asked = on_height(model, point);
    Spread means;
    double sum = 0.0;
    for (const SurfaceNode& node : model.nodes) {
        sum += node.weight * node_variance(model, node, place, point, remeasured);
        means.add(node.weight, forecast_of(model, node, place, asked).mean);
    }
    return sum + means.variance();
}

std::vector<double> variances_with_core_at(const SurfaceModel& model, const PathPoint& point, const Places& oriented) {
    if (model.neighbourhoods) return variances_with_core_at(model_about(model, point.chart_point.head<2>()), point, oriented);
    const Eigen::Vector2d place = point.chart_point.head<2>() - model.rows.centre;
    const OnHeight asked = on_height(model, point);
    std::vector<double> left(oriented.size(), budget_over_path(model, point).total());
    for (const SurfaceNode& node : model.nodes) {
        const NodeForecast forecast = forecast_of(model, node, place, asked);
        const Eigen::Vector2d trend = model.rows.trend_variances.tail<2>();
        for (std::size_t i = 0; i < oriented.size(); ++i) {
            const Eigen::Vector2d there = oriented[i] - model.rows.centre;
            const Eigen::MatrixX2d with_slopes = slopes_with_rows(model.rows, node.kernel, there);
            const KernelTerms terms = kernel_at(node.kernel, place - there);
            const Eigen::Vector2d known = with_slopes.transpose() * forecast.weights;
            const Eigen::Vector2d shared = trend.cwiseProduct(place) + terms.p * terms.pull - known;
            Eigen::Matrix2d slopes = kernel_at(node.kernel, Eigen::Vector2d::Zero()).slopes_with_slopes(node.kernel);
            slopes.diagonal() += trend;
            const Eigen::MatrixXd white = node.data.whitener.triangularView<Eigen::Lower>() * with_slopes;
            slopes -= white.transpose() * white;
            slopes.diagonal().array() += node.guess.core_sd * node.guess.core_sd;
            left[i] -= node.weight * shared.dot(slopes.ldlt().solve(shared));
        }
    }
    return left;
}

}  // namespace selvage::veins
