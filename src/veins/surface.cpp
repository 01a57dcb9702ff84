#include "veins/surface.h"

#include "base/parallel.h"
#include "veins/surface_model.h"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace selvage::veins {

namespace {

using Pairs = std::vector<std::pair<paths::ErrorSource, double>>;

// The trend's row of a height at a place counted from the centre.
Eigen::Vector3d trend_row(const Eigen::Vector2d& place) { return {1.0, place.x(), place.y()}; }

// Covariance of the height at a place with every row.
Eigen::VectorXd with_rows(const SurfaceRows& rows, const Kernel& kernel, const Eigen::Vector2d& place) {
    const Eigen::Vector3d trend = trend_variances().cwiseProduct(trend_row(place));
    Eigen::VectorXd covariance(rows.values.size());
    for (const RowPlace& datum : rows.places) {
        const KernelTerms terms = kernel_at(kernel, place - datum.place);
        if (datum.has_height) covariance(datum.first) = terms.value + trend.dot(trend_row(datum.place));
        if (datum.has_slopes)
            covariance.segment<2>(datum.slope_row()) = rows.slope_scale * (terms.p * terms.pull + trend.tail<2>());
    }
    return covariance;
}

// Covariance of the two slopes at a place with every row.
Eigen::MatrixX2d slopes_with_rows(const SurfaceRows& rows, const Kernel& kernel, const Eigen::Vector2d& place) {
    const Eigen::Vector2d trend = trend_variances().tail<2>();
    Eigen::MatrixX2d covariance(rows.values.size(), 2);
    for (const RowPlace& datum : rows.places) {
        const KernelTerms terms = kernel_at(kernel, place - datum.place);
        if (datum.has_height) covariance.row(datum.first) = trend.cwiseProduct(datum.place) - terms.p * terms.pull;
        if (datum.has_slopes) {
            Eigen::Matrix2d slopes = terms.slopes_with_slopes(kernel);
            slopes.diagonal() += trend;
            covariance.middleRows<2>(datum.slope_row()) = rows.slope_scale * slopes;
        }
    }
    return covariance;
}

double own_variance(const Kernel& kernel, const Eigen::Vector2d& place) {
    return kernel.sill + trend_variances().dot(trend_row(place).cwiseAbs2());
}

MeanSurface node_mean(const SurfaceRows& rows, const SurfaceNode& node, const Eigen::Vector2d& place) {
    MeanSurface mean{node.trend.dot(trend_row(place)), node.trend.tail<2>()};
    for (const RowPlace& datum : rows.places) {
        const KernelTerms terms = kernel_at(node.kernel, place - datum.place);
        if (datum.has_height) {
            const double weight = node.data.weights(datum.first);
            mean.height += weight * terms.value;
            mean.gradient -= weight * terms.p * terms.pull;
        }
        if (datum.has_slopes) {
            const Eigen::Vector2d weight = rows.slope_scale * node.data.weights.segment<2>(datum.slope_row());
            mean.height += terms.p * terms.pull.dot(weight);
            mean.gradient += terms.slopes_with_slopes(node.kernel) * weight;
        }
    }
    return mean;
}

// Slopes of the mean at each datum, under the likeliest of a few parameters.
std::vector<Eigen::Vector2d> first_slopes(const std::vector<SurfaceDatum>& data, const SurfaceRows& rows, double spacing) {
    const SurfaceNode node = surface_node(rows, {first_guess(rows, spacing), 1.0});
    std::vector<Eigen::Vector2d> slopes;
    for (const SurfaceDatum& datum : data) slopes.push_back(node_mean(rows, node, datum.place - rows.centre).gradient);
    return slopes;
}

void add(numerics::NormalMixture& mixture, double weight, const Estimate& estimate) {
    mixture.weights.push_back(weight);
    mixture.means.push_back(estimate.mean);
    mixture.sds.push_back(std::sqrt(estimate.variance));
}

}  // namespace

SurfaceNode surface_node(const SurfaceRows& rows, const WeighedGuess& weighed) {
    SurfaceNode node;
    node.weight = weighed.weight;
    node.guess = weighed.guess;
    node.kernel = kernel_of(weighed.guess.smoothness, weighed.guess.shape);
    auto data = condition(covariance_of_rows(rows, weighed.guess), rows.values);
    assert(data && "a node whose matrix cannot be factored has no weight");
    node.data = std::move(*data);
    Eigen::Vector3d sum = Eigen::Vector3d::Zero();
    for (const RowPlace& datum : rows.places) {
        if (datum.has_height) sum += node.data.weights(datum.first) * trend_row(datum.place);
        if (datum.has_slopes) sum.tail<2>() += rows.slope_scale * node.data.weights.segment<2>(datum.slope_row());
    }
    node.trend = trend_variances().cwiseProduct(sum);
    return node;
}

std::vector<Eigen::Index> rows_of(const RowPlace& place) {
    std::vector<Eigen::Index> rows;
    for (Eigen::Index i = 0; i < place.count(); ++i) rows.push_back(place.first + i);
    return rows;
}

std::shared_ptr<const SurfaceModel> fit_surface(std::vector<SurfaceDatum> data, double spacing, const SurfaceRules& rules) {
    assert(!data.empty() && spacing > 0.0);
    auto model = std::make_shared<SurfaceModel>();
    model->rules = rules;
    model->spacing = spacing;
    const std::vector<Eigen::Vector2d> flat(data.size(), Eigen::Vector2d::Zero());
    const SurfaceRows first = surface_rows(data, flat, spacing, rules);
    model->rows = surface_rows(data, first_slopes(data, first, spacing), spacing, rules);
    model->place_of_datum.resize(data.size());
    for (std::size_t p = 0; p < data.size(); ++p) model->place_of_datum[model->rows.datum[p]] = p;
    const std::vector<WeighedGuess> guesses = surface_nodes(model->rows, spacing);
    model->nodes.resize(guesses.size());
    base::parallel_for(guesses.size(), [&](std::size_t k) { model->nodes[k] = surface_node(model->rows, guesses[k]); });
    return model;
}

numerics::NormalMixture height_at(const SurfaceModel& model, const Eigen::Vector2d& place) {
    const Eigen::Vector2d centred = place - model.rows.centre;
    numerics::NormalMixture mixture;
    for (const SurfaceNode& node : model.nodes)
        add(mixture, node.weight,
            estimate(node.data, with_rows(model.rows, node.kernel, centred), own_variance(node.kernel, centred)));
    return mixture;
}

MeanSurface mean_at(const SurfaceModel& model, const Eigen::Vector2d& place) {
    MeanSurface mean;
    for (const SurfaceNode& node : model.nodes) {
        const MeanSurface part = node_mean(model.rows, node, place - model.rows.centre);
        mean.height += node.weight * part.height;
        mean.gradient += node.weight * part.gradient;
    }
    return mean;
}

Eigen::Vector2d gradient_sd_at(const SurfaceModel& model, const Eigen::Vector2d& place) {
    const Eigen::Vector2d centred = place - model.rows.centre;
    std::array<numerics::NormalMixture, 2> slopes;
    for (const SurfaceNode& node : model.nodes) {
        const Eigen::MatrixX2d covariance = slopes_with_rows(model.rows, node.kernel, centred);
        const Eigen::Matrix2d own = kernel_at(node.kernel, Eigen::Vector2d::Zero()).slopes_with_slopes(node.kernel);
        for (Eigen::Index axis = 0; axis < 2; ++axis)
            add(slopes[static_cast<std::size_t>(axis)], node.weight,
                estimate(node.data, covariance.col(axis), own(axis, axis) + trend_variances()(1 + axis)));
    }
    return {std::sqrt(slopes[0].variance()), std::sqrt(slopes[1].variance())};
}

numerics::NormalMixture height_over_path(const SurfaceModel& model, const Eigen::Vector3d& chart_point,
                                         const Eigen::Vector3d& slope_row, const std::vector<ChartEffect>& effects) {
    const Eigen::Vector2d centred = chart_point.head<2>() - model.rows.centre;
    Pairs on_height;
    double scaled_variance = 0.0, unscaled_variance = 0.0;
    for (const ChartEffect& effect : effects) {
        const double change = slope_row.dot(effect.displacement), sd = change * effect.source.sd;
        on_height.emplace_back(effect.source, change);
        (paths::is_deviation(effect.source.id.kind) ? unscaled_variance : scaled_variance) += sd * sd;
    }
    const SharedError shared = model.rules.shared_sources ? shared_error(model.rows, on_height) : SharedError{};
    numerics::NormalMixture mixture;
    for (const SurfaceNode& node : model.nodes) {
        const double noise = node.guess.noise_factor * node.guess.noise_factor;
        Eigen::VectorXd covariance = with_rows(model.rows, node.kernel, centred);
        if (model.rules.shared_sources) covariance += shared.unscaled + noise * shared.scaled;
        const double variance = own_variance(node.kernel, centred) + unscaled_variance + noise * scaled_variance;
        add(mixture, node.weight, estimate(node.data, covariance, variance));
    }
    return numerics::shifted(std::move(mixture), -chart_point.z());
}

SurfaceParameters parameters_of(const SurfaceModel& model) {
    SurfaceParameters parameters;
    parameters.nodes = model.nodes.size();
    for (const SurfaceNode& node : model.nodes) {
        parameters.range += node.weight * node.guess.shape.range;
        parameters.slope_sd += node.weight * node.guess.shape.slope_sd;
    }
    return parameters;
}

}  // namespace selvage::veins
