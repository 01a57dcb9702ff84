#include "veins/model.h"
#include "veins/surface_teaching.h"

#include <cmath>
#include <optional>
#include <utility>

namespace selvage::veins {

Teaching::Teaching(std::shared_ptr<SurfaceTeaching> surface) : surface_(std::move(surface)) {}

double Teaching::variance_sum() const { return surface_->variance_sum(); }
std::vector<double> Teaching::gains() const { return surface_->gains(); }
void Teaching::drill(std::size_t place) { surface_->drill(place); }

namespace {

// One place of the modelled ground; nothing outside the extent.
std::optional<GroundPlace> ground_place(const Vein::Model& model, const BlockPart& part, const Eigen::Vector2d& place,
                                        double step) {
    if (margin_at(part.extent, place).inside < 0.0) return std::nullopt;
    const MeanSurface mean = mean_in(model, part, place);
    GroundPlace there;
    there.point = part.chart.world_from_chart({place.x(), place.y(), mean.height});
    there.normal = world_normal(model.chart, mean.gradient);
    there.area = step * step * std::sqrt(1.0 + mean.gradient.squaredNorm());
    there.presence = model.window->at(place) * model.drawn_thickness->at(place).chance_of_more_than_trace;
    there.nearest_hit = nearest_distance(part.extent.hits, place);
    return there;
}

}  // namespace

std::vector<GroundPlace> Vein::ground(double step) const {
    const Model& model = *model_;
    std::vector<GroundPlace> ground;
    std::vector<Eigen::Vector3d> points;
    for (const BlockPart& part : model.parts) {
        if (part.extent.hits.empty()) continue;
        const Lattice lattice = lattice_near(part.extent.hits, model.step_out, step);
        for (const std::size_t node : lattice.needed_nodes()) {
            std::optional<GroundPlace> there = ground_place(model, part, lattice.place_of(node), step);
            if (!there) continue;
            points.push_back(there->point);
            ground.push_back(std::move(*there));
        }
    }
    std::vector<Content> contents = contents_at(points);
    for (std::size_t i = 0; i < ground.size(); ++i) ground[i].content = std::move(contents[i]);
    return ground;
}

Teaching Vein::teaching(const std::vector<GroundPlace>& ground, const std::vector<double>& weights,
                        const std::vector<double>& error_variances) const {
    std::vector<PathPoint> places;
    for (const GroundPlace& there : ground) {
        const Located found = located(*model_, there.point);
        const BlockPart& part = model_->parts[found.block];
        const Eigen::Vector2d gradient = model_->lattice->at(found.chart_point.head<2>()).gradient;
        places.push_back({found.chart_point, slope_row_of(gradient), chart_effects(part.chart, part.slips)});
    }
    return Teaching(std::make_shared<SurfaceTeaching>(*model_->surface, places, weights, error_variances));
}

}  // namespace selvage::veins
