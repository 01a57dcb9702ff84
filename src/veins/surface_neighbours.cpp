#include "veins/surface_neighbours.h"

#include "base/parallel.h"
#include "veins/gaussian_process.h"
#include "veins/neighbourhood.h"

#include <numeric>

namespace selvage::veins {

NeighbourLikelihood::NeighbourLikelihood(const SurfaceRows& rows, std::size_t neighbours) {
    Places places;
    for (const RowPlace& place : rows.places) places.push_back(place.place);
    for (const std::vector<std::size_t>& group : groups_of_order(places, spread_order(places, places.size()), neighbours)) {
        own_rows_.push_back(rows.places[group.back()].count());
        groups_.push_back(rows_of_places(rows, group));
        groups_.back().sources.clear();
        groups_.back().sources_of_place.clear();
    }
}

double NeighbourLikelihood::operator()(const SurfaceGuess& guess) const {
    std::vector<double> parts(groups_.size());
    base::parallel_for(groups_.size(), [&](std::size_t i) {
        parts[i] = log_density_of_last(covariance_of_rows(groups_[i], guess), groups_[i].values, own_rows_[i]);
    });
    return std::accumulate(parts.begin(), parts.end(), 0.0);
}

double NeighbourLikelihood::operator()(Smoothness smoothness, const Scores& scores, double spacing, Scores& gradient) const {
    std::vector<double> parts(groups_.size());
    std::vector<Scores> gradients(groups_.size());
    base::parallel_for(groups_.size(), [&](std::size_t i) {
        parts[i] = log_likelihood_of_last(groups_[i], own_rows_[i], smoothness, scores, spacing, gradients[i]);
    });
    gradient.setZero();
    for (const Scores& part : gradients) gradient += part;
    return std::accumulate(parts.begin(), parts.end(), 0.0);
}

}  // namespace selvage::veins
