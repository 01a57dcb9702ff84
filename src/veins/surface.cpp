#include "veins/surface.h"

#include "base/parallel.h"
#include "veins/surface_model.h"

#include <cassert>

namespace selvage::veins {

namespace {

// Enough that a cell's answer differs from that of all data by some hundredths of its sd.
constexpr std::size_t nearest_data = 40, spread_data = 40;

SurfaceNode unsolved(const WeighedGuess& weighed) {
    SurfaceNode node;
    node.weight = weighed.weight;
    node.guess = weighed.guess;
    node.kernel = kernel_of(weighed.guess.smoothness, weighed.guess.shape);
    return node;
}

// The model's rows under surface slopes.
void lay_rows(SurfaceModel& model, const std::vector<SurfaceDatum>& data, const std::vector<Eigen::Vector2d>& slopes) {
    model.rows = rows_without_matrices(data, slopes, model.spacing, model.rules);
    model.place_of_datum.resize(data.size());
    model.hole_of_place.clear();
    for (std::size_t p = 0; p < data.size(); ++p) {
        model.place_of_datum[model.rows.datum[p]] = p;
        model.hole_of_place.push_back(data[model.rows.datum[p]].hole);
    }
    if (model.rows.values.size() <= model.rules.most_factored)
        fill_matrices(model.rows);
    else if (!model.neighbourhoods) {
        Places places;
        for (const RowPlace& place : model.rows.places) places.push_back(place.place);
        model.neighbourhoods = Neighbourhoods(std::move(places), nearest_data, spread_data);
    }
}

void solve(SurfaceModel& model, const std::vector<WeighedGuess>& guesses) {
    model.nodes.resize(guesses.size());
    base::parallel_for(guesses.size(), [&](std::size_t k) {
        model.nodes[k] = model.neighbourhoods ? unsolved(guesses[k]) : surface_node(model.rows, guesses[k]);
    });
}

// Slopes of the mean at each datum, under the likeliest of a few parameters.
std::vector<Eigen::Vector2d> first_slopes(SurfaceModel& model, const std::vector<SurfaceDatum>& data) {
    Places places;
    for (const SurfaceDatum& datum : data) places.push_back(datum.place);
    lay_rows(model, data, std::vector<Eigen::Vector2d>(data.size(), Eigen::Vector2d::Zero()));
    solve(model, {{first_guess(model.rows, model.spacing), 1.0}});
    std::vector<Eigen::Vector2d> slopes;
    for (const MeanSurface& mean : means_at(model, places)) slopes.push_back(mean.gradient);
    return slopes;
}

}  // namespace

SurfaceNode surface_node(const SurfaceRows& rows, const WeighedGuess& weighed) {
    SurfaceNode node = unsolved(weighed);
    auto data = condition(covariance_of_rows(rows, weighed.guess), rows.values);
    assert(data && "a node whose matrix cannot be factored has no weight");
    node.data = std::move(*data);
    Eigen::Vector3d sum = Eigen::Vector3d::Zero();
    for (const RowPlace& datum : rows.places) {
        if (datum.has_height) sum += node.data.weights(datum.first) * trend_row(datum.place);
        if (datum.has_slopes) sum.tail<2>() += rows.slope_scale * node.data.weights.segment<2>(datum.slope_row());
    }
    node.trend = rows.trend_variances.cwiseProduct(sum);
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
    lay_rows(*model, data, first_slopes(*model, data));
    solve(*model, surface_nodes(model->rows, spacing, rules.most_searched));
    return model;
}

SurfaceModel model_of_places(const SurfaceModel& model, const std::vector<std::size_t>& places) {
    SurfaceModel local;
    local.rules = model.rules;
    local.spacing = model.spacing;
    local.rows = rows_of_places(model.rows, places);
    for (std::size_t i = 0; i < places.size(); ++i) {
        local.place_of_datum.push_back(i);
        local.hole_of_place.push_back(model.hole_of_place[places[i]]);
    }
    for (const SurfaceNode& node : model.nodes) local.nodes.push_back(surface_node(local.rows, {node.guess, node.weight}));
    return local;
}

SurfaceModel model_about(const SurfaceModel& model, const Eigen::Vector2d& place) {
    return model_of_places(model, model.neighbourhoods->around(model.neighbourhoods->cell_of(place - model.rows.centre)));
}

SurfaceParameters parameters_of(const SurfaceModel& model) {
    SurfaceParameters parameters;
    parameters.nodes = model.nodes.size();
    for (const SurfaceNode& node : model.nodes) {
        parameters.range += node.weight * node.guess.shape.range;
        parameters.slope_sd += node.weight * node.guess.shape.slope_sd;
        parameters.core_sd += node.weight * node.guess.core_sd * node.guess.core_sd;
    }
    parameters.core_sd = std::sqrt(parameters.core_sd);
    return parameters;
}

}  // namespace selvage::veins
