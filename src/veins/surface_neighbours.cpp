#include "veins/surface_neighbours.h"

#include "veins/gaussian_process.h"
#include "veins/neighbourhood.h"

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
    double sum = 0.0;
    for (std::size_t i = 0; i < groups_.size(); ++i)
        sum += log_density_of_last(covariance_of_rows(groups_[i], guess), groups_[i].values, own_rows_[i]);
    return sum;
}

}  // namespace selvage::veins
