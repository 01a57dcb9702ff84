#include "veins/surface_model.h"

#include <cassert>
#include <cmath>

namespace selvage::veins {

// Every node foretells the datum from the others, and weighs as it would have without it: its weight over the density that it
// gave the datum.
numerics::NormalMixture leave_one_out_height(const SurfaceModel& model, std::size_t datum) {
    assert(datum < model.place_of_datum.size());
    if (model.neighbourhoods) {
        const std::size_t number = model.place_of_datum[datum];
        const std::vector<std::size_t> about = model.neighbourhoods->around(number);
        return leave_one_out_height(model_of_places(model, about), position_in(about, number));
    }
    const RowPlace& place = model.rows.places[model.place_of_datum[datum]];
    numerics::NormalMixture mixture;
    if (!place.has_height) return mixture;
    std::vector<double> log_weights;
    for (const SurfaceNode& node : model.nodes) {
        const LeftOut left = left_out(node.data, model.rows.values, rows_of(place));
        mixture.means.push_back(left.mean(0));
        mixture.sds.push_back(std::sqrt(left.covariance(0, 0)));
        log_weights.push_back(std::log(node.weight) - left.log_density);
    }
    mixture.weights = numerics::weights_from_logs(log_weights);
    return mixture;
}

}  // namespace selvage::veins
