#pragma once

#include "veins/covariance.h"
#include "veins/gaussian_process.h"
#include "veins/neighbourhood.h"
#include "veins/surface.h"
#include "veins/surface_nodes.h"
#include "veins/surface_rows.h"

#include <Eigen/Core>

#include <optional>
#include <string>
#include <vector>

// A fitted surface. Private to the surface's files and their tests.
namespace selvage::veins {

struct SurfaceNode {
    double weight = 0.0;
    SurfaceGuess guess;
    Kernel kernel;
    Conditioned data;                                 // empty in a model that answers by neighbourhoods
    Eigen::Vector3d trend = Eigen::Vector3d::Zero();  // mean of the trend's coefficients given the data
};

struct SurfaceModel {
    SurfaceRules rules;
    double spacing = 0.0;
    SurfaceRows rows;
    std::vector<std::size_t> place_of_datum;  // the caller's index to that of rows.places
    std::vector<std::string> hole_of_place;
    std::vector<SurfaceNode> nodes;
    std::optional<Neighbourhoods> neighbourhoods;  // of very many data, in the rows' order, from the rows' centre
};

// The same nodes given some of the data alone (numbers of rows.places): its data are numbered in that order.
SurfaceModel model_of_places(const SurfaceModel& model, const std::vector<std::size_t>& places);
// The data about a place (u, v), of a model that answers by neighbourhoods.
SurfaceModel model_about(const SurfaceModel& model, const Eigen::Vector2d& place);

// Answers at places (u, v) of a model that answers by neighbourhoods: ask(local model, numbers of some places).
template <typename Answer, typename Ask>
std::vector<Answer> answers_nearby(const SurfaceModel& model, const Places& places, const Ask& ask) {
    Places from_centre;
    for (const Eigen::Vector2d& place : places) from_centre.push_back(place - model.rows.centre);
    return answers_by_cell<Answer>(*model.neighbourhoods, from_centre, [&](const Cell& cell) {
        return ask(model_of_places(model, model.neighbourhoods->around(cell.middle)), cell.asked);
    });
}

SurfaceNode surface_node(const SurfaceRows& rows, const WeighedGuess& guess);

// Mean of the surface under one node, at a place from the rows' centre.
MeanSurface node_mean(const SurfaceRows& rows, const SurfaceNode& node, const Eigen::Vector2d& place);

// Covariance of the height, and of the two slopes, at a place from the rows' centre with every row; and the height's own
// variance.
Eigen::VectorXd height_with_rows(const SurfaceRows& rows, const Kernel& kernel, const Eigen::Vector2d& place);
Eigen::MatrixX2d slopes_with_rows(const SurfaceRows& rows, const Kernel& kernel, const Eigen::Vector2d& place);
double height_variance(const SurfaceRows& rows, const Kernel& kernel, const Eigen::Vector2d& place);

// Covariance of the heights over some points under one node, given the data, m2.
Eigen::MatrixXd posterior_covariance(const SurfaceModel& model, const SurfaceNode& node, const std::vector<PathPoint>& points);

// Rows of the datum at a place.
std::vector<Eigen::Index> rows_of(const RowPlace& place);

}  // namespace selvage::veins
