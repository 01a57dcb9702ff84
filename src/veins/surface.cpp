#include "veins/surface.h"

#include "base/parallel.h"
#include "veins/surface_model.h"

#include <cassert>

namespace selvage::veins {

namespace {

// Slopes of the mean at each datum, under the likeliest of a few parameters.
std::vector<Eigen::Vector2d> first_slopes(const std::vector<SurfaceDatum>& data, const SurfaceRows& rows, double spacing) {
    const SurfaceNode node = surface_node(rows, {first_guess(rows, spacing), 1.0});
    std::vector<Eigen::Vector2d> slopes;
    for (const SurfaceDatum& datum : data) slopes.push_back(node_mean(rows, node, datum.place - rows.centre).gradient);
    return slopes;
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
    for (std::size_t p = 0; p < data.size(); ++p) {
        model->place_of_datum[model->rows.datum[p]] = p;
        model->hole_of_place.push_back(data[model->rows.datum[p]].hole);
    }
    const std::vector<WeighedGuess> guesses = surface_nodes(model->rows, spacing);
    model->nodes.resize(guesses.size());
    base::parallel_for(guesses.size(), [&](std::size_t k) { model->nodes[k] = surface_node(model->rows, guesses[k]); });
    return model;
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
