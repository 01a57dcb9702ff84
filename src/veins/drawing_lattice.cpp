#include "veins/drawing_lattice.h"

#include "base/parallel.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

namespace selvage::veins {

namespace {

constexpr std::size_t together = 128;  // places asked at once

DrawnField mixed(const std::array<DrawnField, 4>& corners, const Eigen::Vector2d& within) {
    const double u = within.x(), v = within.y();
    const std::array<double, 4> weights{(1.0 - u) * (1.0 - v), u * (1.0 - v), (1.0 - u) * v, u * v};
    DrawnField field{0.0, 0.0, 0.0, 0.0, 0.0};
    for (std::size_t i = 0; i < corners.size(); ++i) {
        field.low80 += weights[i] * corners[i].low80;
        field.high80 += weights[i] * corners[i].high80;
        field.height_sd += weights[i] * corners[i].height_sd;
        field.log_thickness += weights[i] * corners[i].log_thickness;
        field.chance_of_more_than_trace += weights[i] * corners[i].chance_of_more_than_trace;
    }
    return field;
}

}  // namespace

double usual_log_thickness() { return std::log(0.5); }

double log_stretch(const Eigen::Vector2d& gradient) { return 0.5 * std::log1p(gradient.squaredNorm()); }

double chance_of_more_than_trace(const numerics::NormalMixture& log_true_thickness) {
    constexpr double trace_of_vein = 0.02;  // m
    return log_true_thickness.empty() ? 1.0 : 1.0 - log_true_thickness.cumulative(std::log(trace_of_vein));
}

DrawingLattice::DrawingLattice(std::shared_ptr<const SurfaceModel> surface, std::shared_ptr<const MeanLattice> mean,
                               std::shared_ptr<const LogField> thickness)
    : surface_(std::move(surface)), mean_(std::move(mean)), thickness_(std::move(thickness)) {
    const Lattice& lattice = mean_->lattice();
    nodes_.resize(lattice.needed.size());
    const std::vector<std::size_t> needed = lattice.needed_nodes();
    base::parallel_for((needed.size() + together - 1) / together, [&](std::size_t part) {
        const std::size_t from = part * together, to = std::min(needed.size(), from + together);
        std::vector<Eigen::Vector2d> places;
        for (std::size_t i = from; i < to; ++i) places.push_back(lattice.place_of(needed[i]));
        const std::vector<DrawnField> fields = fields_at(places);
        for (std::size_t i = from; i < to; ++i) nodes_[needed[i]] = fields[i - from];
    });
}

// A mixture's mean is the smooth value: the nugget's own is zero.
std::vector<DrawnField> DrawingLattice::fields_at(const std::vector<Eigen::Vector2d>& places) const {
    std::vector<DrawnField> fields(places.size());
    const std::vector<numerics::NormalMixture> heights = heights_at(*surface_, places);
    const std::vector<numerics::NormalMixture> logs =
        thickness_ ? log_values_at(*thickness_, places) : std::vector<numerics::NormalMixture>(places.size());
    for (std::size_t i = 0; i < places.size(); ++i) {
        const double mean = heights[i].mean();
        fields[i].low80 = heights[i].quantile(0.1) - mean;
        fields[i].high80 = heights[i].quantile(0.9) - mean;
        fields[i].height_sd = std::sqrt(heights[i].variance());
        fields[i].log_thickness = thickness_ ? logs[i].mean() : usual_log_thickness();
        fields[i].chance_of_more_than_trace =
            chance_of_more_than_trace(numerics::shifted(logs[i], -log_stretch(mean_->at(places[i]).gradient)));
    }
    return fields;
}

DrawnField DrawingLattice::at(const Eigen::Vector2d& place) const {
    const LatticeCell cell = mean_->lattice().cell_of(place);
    if (!cell.known) return fields_at({place}).front();
    const std::size_t above = cell.first + mean_->lattice().columns;
    return mixed({nodes_[cell.first], nodes_[cell.first + 1], nodes_[above], nodes_[above + 1]}, cell.within);
}

double DrawingLattice::log_thickness_at(const Eigen::Vector2d& place) const {
    if (!thickness_) return usual_log_thickness();
    return mean_->covers(place) ? at(place).log_thickness : smooth_log_at(*thickness_, place);
}

}  // namespace selvage::veins
