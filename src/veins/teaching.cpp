#include "veins/model.h"
#include "veins/surface_teaching.h"

#include <cmath>
#include <utility>

namespace selvage::veins {

Teaching::Teaching(std::shared_ptr<SurfaceTeaching> surface) : surface_(std::move(surface)) {}

double Teaching::variance_sum() const { return surface_->variance_sum(); }
std::vector<double> Teaching::gains() const { return surface_->gains(); }
void Teaching::drill(std::size_t place) { surface_->drill(place); }

std::vector<GroundPlace> Vein::ground(double step) const {
    const Model& model = *model_;
    std::vector<GroundPlace> ground;
    std::vector<Eigen::Vector3d> points;
    const Lattice lattice = lattice_near(model.extent.hits, model.extent.step_out, step);
    for (const std::size_t node : lattice.needed_nodes()) {
        const Eigen::Vector2d place = lattice.place_of(node);
        if (margin_at(model.extent, place).inside < 0.0) continue;
        const MeanSurface mean = model.lattice->at(place);
        GroundPlace there;
        there.point = model.chart.world_from_chart({place.x(), place.y(), mean.height});
        there.normal = world_normal(model.chart, mean.gradient);
        there.area = step * step * std::sqrt(1.0 + mean.gradient.squaredNorm());
        there.presence = model.window->at(place) * model.drawing->at(place).chance_of_more_than_trace;
        there.nearest_hit = nearest_distance(model.extent.hits, place);
        points.push_back(there.point);
        ground.push_back(std::move(there));
    }
    std::vector<Content> contents = contents_at(points);
    for (std::size_t i = 0; i < ground.size(); ++i) ground[i].content = std::move(contents[i]);
    return ground;
}

Teaching Vein::teaching(const std::vector<GroundPlace>& ground, const std::vector<double>& weights,
                        const std::vector<double>& error_variances) const {
    std::vector<Eigen::Vector2d> places;
    for (const GroundPlace& there : ground) places.emplace_back(model_->chart.chart_from_world(there.point).head<2>());
    return Teaching(std::make_shared<SurfaceTeaching>(*model_->surface, places, weights, error_variances));
}

}  // namespace selvage::veins
