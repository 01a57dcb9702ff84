#include "veins/drawing_lattice.h"

#include "base/parallel.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

namespace selvage::veins {

namespace {

// Each needed node's field, asked 128 at once on all threads.
template <typename Field, typename Ask>
std::vector<Field> fields_on(const Lattice& lattice, const Ask& ask) {
    constexpr std::size_t together = 128;
    std::vector<Field> nodes(lattice.needed.size());
    const std::vector<std::size_t> needed = lattice.needed_nodes();
    base::parallel_for((needed.size() + together - 1) / together, [&](std::size_t part) {
        const std::size_t from = part * together, to = std::min(needed.size(), from + together);
        std::vector<Eigen::Vector2d> places;
        for (std::size_t i = from; i < to; ++i) places.push_back(lattice.place_of(needed[i]));
        const std::vector<Field> fields = ask(places);
        for (std::size_t i = from; i < to; ++i) nodes[needed[i]] = fields[i - from];
    });
    return nodes;
}

template <typename Field>
double mixed(const Lattice& lattice, const LatticeCell& cell, const std::vector<Field>& nodes, double Field::*value) {
    const double u = cell.within.x(), v = cell.within.y();
    const std::size_t above = cell.first + lattice.columns;
    const std::array<double, 4> weights{(1.0 - u) * (1.0 - v), u * (1.0 - v), (1.0 - u) * v, u * v};
    const std::array<std::size_t, 4> corners{cell.first, cell.first + 1, above, above + 1};
    double sum = 0.0;
    for (std::size_t i = 0; i < corners.size(); ++i) sum += weights[i] * (nodes[corners[i]].*value);
    return sum;
}

}  // namespace

double usual_log_thickness() { return std::log(0.5); }

double log_stretch(const Eigen::Vector2d& gradient) { return 0.5 * std::log1p(gradient.squaredNorm()); }

double chance_of_more_than_trace(const numerics::NormalMixture& log_true_thickness) {
    constexpr double trace_of_vein = 0.02;  // m
    return log_true_thickness.empty() ? 1.0 : 1.0 - log_true_thickness.cumulative(std::log(trace_of_vein));
}

BandLattice::BandLattice(std::shared_ptr<const SurfaceModel> surface, std::shared_ptr<const MeanLattice> mean,
                         std::vector<ChartEffect> slips, Lattice lattice)
    : surface_(std::move(surface)), mean_(std::move(mean)), slips_(std::move(slips)), lattice_(std::move(lattice)) {
    nodes_ = fields_on<DrawnBand>(lattice_, [this](const std::vector<Eigen::Vector2d>& places) { return bands_at(places); });
}

std::vector<DrawnBand> BandLattice::bands_at(const std::vector<Eigen::Vector2d>& places) const {
    std::vector<PathPoint> points;
    if (!slips_.empty())
        for (const Eigen::Vector2d& place : places)
            points.push_back({{place.x(), place.y(), 0.0}, slope_row_of(mean_->at(place).gradient), slips_});
    const std::vector<numerics::NormalMixture> heights =
        slips_.empty() ? heights_at(*surface_, places) : heights_over_paths(*surface_, points);
    std::vector<DrawnBand> bands;
    for (const numerics::NormalMixture& height : heights) {
        const double mean = height.mean();
        bands.push_back({height.quantile(0.1) - mean, height.quantile(0.9) - mean, std::sqrt(height.variance())});
    }
    return bands;
}

DrawnBand BandLattice::at(const Eigen::Vector2d& place) const {
    const LatticeCell cell = lattice_.cell_of(place);
    if (!cell.known) return bands_at({place}).front();
    return {mixed(lattice_, cell, nodes_, &DrawnBand::low80), mixed(lattice_, cell, nodes_, &DrawnBand::high80),
            mixed(lattice_, cell, nodes_, &DrawnBand::height_sd)};
}

ThicknessLattice::ThicknessLattice(std::shared_ptr<const MeanLattice> mean, std::shared_ptr<const LogField> thickness)
    : mean_(std::move(mean)), thickness_(std::move(thickness)) {
    nodes_ = fields_on<DrawnThickness>(mean_->lattice(),
                                       [this](const std::vector<Eigen::Vector2d>& places) { return thicknesses_at(places); });
}

// A mixture's mean is the smooth value: the nugget's own is zero.
std::vector<DrawnThickness> ThicknessLattice::thicknesses_at(const std::vector<Eigen::Vector2d>& places) const {
    const std::vector<numerics::NormalMixture> logs =
        thickness_ ? log_values_at(*thickness_, places) : std::vector<numerics::NormalMixture>(places.size());
    std::vector<DrawnThickness> thicknesses;
    for (std::size_t i = 0; i < places.size(); ++i)
        thicknesses.push_back(
            {thickness_ ? logs[i].mean() : usual_log_thickness(),
             chance_of_more_than_trace(numerics::shifted(logs[i], -log_stretch(mean_->at(places[i]).gradient)))});
    return thicknesses;
}

DrawnThickness ThicknessLattice::at(const Eigen::Vector2d& place) const {
    const Lattice& lattice = mean_->lattice();
    const LatticeCell cell = lattice.cell_of(place);
    if (!cell.known) return thicknesses_at({place}).front();
    return {mixed(lattice, cell, nodes_, &DrawnThickness::log_thickness),
            mixed(lattice, cell, nodes_, &DrawnThickness::chance_of_more_than_trace)};
}

double ThicknessLattice::log_thickness_at(const Eigen::Vector2d& place) const {
    if (!thickness_) return usual_log_thickness();
    return mean_->covers(place) ? at(place).log_thickness : smooth_log_at(*thickness_, place);
}

}  // namespace selvage::veins
