#include "veins/vein.h"

#include "veins/model.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace selvage::veins {

namespace {

Eigen::Vector3d upward(const Eigen::Vector3d& normal) { return normal.z() < 0.0 ? Eigen::Vector3d(-normal) : normal; }

// In a block, or else in the one where the vein lies nearest to the point.
Located located_in(const Vein::Model& model, const Eigen::Vector3d& point, std::optional<std::size_t> block) {
    return block ? Located{*block, model.parts[*block].chart.chart_from_world(point), true} : located(model, point);
}

std::vector<Eigen::Vector2d> places_of(const Vein::Model& model, const std::vector<Eigen::Vector3d>& points,
                                       std::optional<std::size_t> block = std::nullopt) {
    std::vector<Eigen::Vector2d> places;
    for (const Eigen::Vector3d& point : points) places.emplace_back(located_in(model, point, block).chart_point.head<2>());
    return places;
}

}  // namespace

Eigen::Vector3d world_normal(const Chart& chart, const Eigen::Vector2d& gradient) {
    const Eigen::Vector3d normal = slope_row_of(gradient).normalized();
    return upward(chart.chart_from_world_rotation.transpose() * normal);
}

const char* words_of(EdgeReason reason) {
    switch (reason) {
        case EdgeReason::extrapolation_distance: return "extrapolation distance";
        case EdgeReason::half_way_to_miss: return "half way to a hole without the vein";
        case EdgeReason::presence: return "vein more likely absent";
        case EdgeReason::fault: return "fault";
        case EdgeReason::other_vein: return "wall of another vein";
        case EdgeReason::topography: return "ground surface";
        default: return "property boundary";
    }
}

const char* words_of(NoVeinReason reason) {
    switch (reason) {
        case NoVeinReason::absent: return "absent";
        case NoVeinReason::not_logged: return "not logged as vein";
        case NoVeinReason::fault_gap: return "fault gap";
        case NoVeinReason::lost_core: return "lost core";
        case NoVeinReason::stopped_short: return "stopped short";
        default: return "not judged";
    }
}

MeanSurface mean_in(const Vein::Model& model, const BlockPart& part, const Eigen::Vector2d& place) {
    return moved_by(part.mean_slip, model.lattice->at(place));
}

DrawnVein drawn_at(const Vein::Model& model, const BlockPart& part, const Eigen::Vector2d& place) {
    return drawn_vein(model.walls, mean_in(model, part, place).height, model.drawn_thickness->log_thickness_at(place), place);
}

base::Angle direction_sd(const Eigen::Vector2d& gradient, const Eigen::Vector2d& gradient_sd) {
    return base::Angle::radians(std::sqrt(gradient_sd.squaredNorm() / 2.0) / (1.0 + gradient.squaredNorm()));
}

double Crossing::cumulative_at(double at_depth) const {
    if (depth.empty() || at_depth < depth.front()) return 0.0;
    if (at_depth >= depth.back()) return cumulative.back();
    const auto after = static_cast<std::size_t>(std::upper_bound(depth.begin(), depth.end(), at_depth) - depth.begin());
    const double share = (at_depth - depth[after - 1]) / (depth[after] - depth[after - 1]);
    return cumulative[after - 1] + share * (cumulative[after] - cumulative[after - 1]);
}

double Crossing::depth_at(double probability) const {
    const double wanted = probability * cumulative.back();
    const auto after =
        static_cast<std::size_t>(std::lower_bound(cumulative.begin(), cumulative.end(), wanted) - cumulative.begin());
    if (after == 0) return depth.front();
    if (after == cumulative.size()) return depth.back();
    const double rise = cumulative[after] - cumulative[after - 1];
    const double share = rise > 0.0 ? (wanted - cumulative[after - 1]) / rise : 1.0;
    return depth[after - 1] + share * (depth[after] - depth[after - 1]);
}

Vein::Vein(std::string name, std::shared_ptr<const Model> model) : name_(std::move(name)), model_(std::move(model)) {}

const VeinSummary& Vein::summary() const { return model_->summary; }
const base::Plane& Vein::mean_plane() const { return model_->plane; }
const faults::Blocks& Vein::blocks() const { return model_->blocks; }
std::size_t Vein::block_at(const Eigen::Vector3d& point) const { return located(*model_, point).block; }
const std::vector<FitRow>& Vein::fit() const { return model_->fit; }
const std::vector<NoVein>& Vein::no_vein() const { return model_->no_vein; }
const std::vector<SlipEstimate>& Vein::slips() const { return model_->slips; }
std::vector<EdgeLine> Vein::edges() const { return model_->edges; }

namespace {

std::vector<Content> contents_of(const Vein::Model& model, const std::vector<Eigen::Vector2d>& places) {
    std::vector<Content> contents(places.size());
    if (model.thickness) {
        const std::vector<numerics::NormalMixture> logs = log_values_at(*model.thickness, places);
        for (std::size_t i = 0; i < places.size(); ++i)
            contents[i].log_thickness = numerics::shifted(logs[i], -log_stretch(model.lattice->at(places[i]).gradient));
    }
    for (const auto& grade : model.grades) {
        const std::vector<numerics::NormalMixture> logs =
            grade ? log_values_at(*grade, places) : std::vector<numerics::NormalMixture>(places.size());
        for (std::size_t i = 0; i < places.size(); ++i) contents[i].log_grades.push_back(logs[i]);
    }
    return contents;
}

}  // namespace

AtPoint Vein::at(const Eigen::Vector3d& point, std::optional<std::size_t> block) const {
    const Model& model = *model_;
    const Located asked = located_in(model, point, block);
    const BlockPart& part = model.parts[asked.block];
    const Eigen::Vector2d place = asked.chart_point.head<2>();
    const MeanSurface mean = moved_by(part.mean_slip, mean_at(*model.surface, place));
    AtPoint answer;
    answer.block = model.blocks.name(asked.block);
    answer.on_vein = part.chart.world_from_chart({place.x(), place.y(), mean.height});
    answer.height =
        height_over_path(*model.surface, asked.chart_point, slope_row_of(mean.gradient), chart_effects(part.chart, part.slips));
    answer.normal = world_normal(model.chart, mean.gradient);
    answer.normal_sd = direction_sd(mean.gradient, gradient_sds_at(*model.surface, {place}).front());
    answer.content = contents_of(model, {place}).front();
    answer.presence = presence_at(*model.presence, place) * chance_of_more_than_trace(answer.content.log_thickness);
    answer.within_extent = margin_at(part.extent, place).inside >= 0.0;
    answer.nearest_hit = nearest_distance(part.extent.hits, place);
    return answer;
}

std::vector<Content> Vein::contents_at(const std::vector<Eigen::Vector3d>& points, std::optional<std::size_t> block) const {
    return contents_of(*model_, places_of(*model_, points, block));
}

std::vector<intercepts::LocalNormal> Vein::normals_at(const std::vector<Eigen::Vector3d>& points) const {
    const std::vector<Eigen::Vector2d> places = places_of(*model_, points);
    const std::vector<MeanSurface> means = means_at(*model_->surface, places);
    const std::vector<Eigen::Vector2d> sds = gradient_sds_at(*model_->surface, places);
    std::vector<intercepts::LocalNormal> normals;
    for (std::size_t i = 0; i < points.size(); ++i) {
        const Eigen::Vector2d& gradient = means[i].gradient;
        normals.push_back({world_normal(model_->chart, gradient), direction_sd(gradient, sds[i])});
    }
    return normals;
}

}  // namespace selvage::veins
