#include "numerics/median.h"
#include "veins/fit.h"
#include "veins/vein_messages.h"
#include "veins/vein_work.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace selvage::veins {

namespace {

constexpr std::size_t fewest_intercepts = 3;

// Area, mean direction and steep share of the mid-surface within the extent.
struct SurfaceCensus {
    double stretch = 1.0;  // area over its shadow on the base plane
    Eigen::Vector3d normal = Eigen::Vector3d::UnitZ();
    double steep_share = 0.0;
};

SurfaceCensus census_of(const Vein::Model& model) {
    constexpr double steep = 1.0;  // slope, 45 degrees
    SurfaceCensus census;
    if (model.extent.hits.empty()) return census;
    Eigen::Vector2d lower = model.extent.hits.front(), upper = lower;
    for (const Eigen::Vector2d& hit : model.extent.hits) {
        lower = lower.cwiseMin(hit);
        upper = upper.cwiseMax(hit);
    }
    const Eigen::Vector2d reach = Eigen::Vector2d::Constant(model.extent.step_out);
    const Eigen::Vector2d box = upper - lower + 2.0 * reach;
    constexpr int columns = 60;
    Eigen::Vector3d sum = Eigen::Vector3d::Zero();
    double stretch = 0.0, inside = 0.0, steep_ones = 0.0;
    for (int row = 0; row < columns; ++row) {
        for (int column = 0; column < columns; ++column) {
            const Eigen::Vector2d share((column + 0.5) / columns, (row + 0.5) / columns);
            const Eigen::Vector2d place = lower - reach + box.cwiseProduct(share);
            if (margin_at(model.extent, place).inside < 0.0) continue;
            const Eigen::Vector2d gradient = model.lattice->at(place).gradient;
            sum += Eigen::Vector3d(-gradient.x(), -gradient.y(), 1.0);
            stretch += std::sqrt(1.0 + gradient.squaredNorm());
            inside += 1.0;
            steep_ones += gradient.norm() > steep ? 1.0 : 0.0;
        }
    }
    if (inside > 0.0) census = {stretch / inside, sum.normalized(), steep_ones / inside};
    return census;
}

std::vector<FitDatum> fit_data(const VeinWork& work) {
    std::vector<FitDatum> data;
    std::size_t thickness = 0;
    for (std::size_t i = 0; i < work.evidence.size(); ++i) {
        FitDatum datum{&work.evidence[i], i, std::nullopt, std::nullopt};
        if (work.thickness[i]) {
            datum.thickness = thickness++;
            datum.log_thickness = work.thickness[i]->log_value;
        }
        if (work.evidence[i].kind == Evidence::Kind::intercept) data.push_back(datum);
    }
    return data;
}

}  // namespace

// Hits and misses as they bear on how far the vein is drawn. A structure without fill shows the place but not the vein.
void lay_extent(VeinWork& work, const std::optional<base::Plane>& ground) {
    Vein::Model& model = *work.model;
    Extent& extent = model.extent;
    extent.chart = model.chart;
    extent.hits = places_where(work, [](const Evidence& one) { return one.present; });
    if (extent.hits.empty())
        extent.hits = places_where(work, [](const Evidence& one) { return one.kind == Evidence::Kind::stated; });
    extent.misses = places_where(work, [](const Evidence& one) { return one.kind == Evidence::Kind::intercept && !one.present; });
    for (const NoVein& row : model.no_vein) {
        if (row.is_miss()) extent.misses.push_back(model.chart.chart_from_world(row.point).head<2>());
    }
    extent.presence = [window = model.window, drawing = model.drawing](const Eigen::Vector2d& place) {
        return window->at(place) * drawing->at(place).chance_of_more_than_trace;
    };
    extent.ground = ground;
    extent.height = [lattice = model.lattice](const Eigen::Vector2d& place) { return lattice->at(place).height; };
}

void find_presence(VeinWork& work) {
    Vein::Model& model = *work.model;
    std::vector<PresenceDatum> data;
    for (const Evidence& one : work.evidence) {
        if (!one.point || one.kind == Evidence::Kind::stated) continue;
        const bool sure = one.intercept == nullptr || one.intercept->certainty < 2;
        data.push_back({model.chart.chart_from_world(*one.point).head<2>(), one.present, sure});
    }
    for (const NoVein& row : model.no_vein)
        if (row.is_miss()) data.push_back({model.chart.chart_from_world(row.point).head<2>(), false, true});
    model.presence = fit_presence(std::move(data), model.spacing);
    model.window = std::make_shared<const PresenceLattice>(model.presence, model.lattice->lattice());
}

void draw_outline(VeinWork& work) {
    Vein::Model& model = *work.model;
    const ExtentOutline lines = outline_of(model.extent, model.spacing);
    for (const OutlinePiece& piece : lines.pieces) {
        EdgeLine line;
        line.reason = piece.reason;
        for (const Eigen::Vector2d& place : piece.places) {
            line.points.push_back(model.chart.world_from_chart({place.x(), place.y(), drawn_at(model, place).mid}));
        }
        model.edges.push_back(std::move(line));
    }
    const SurfaceCensus census = census_of(model);
    model.summary.area = lines.area * census.stretch;
    model.summary.attitude = base::attitude_of_normal(model.chart.chart_from_world_rotation.transpose() * census.normal);
    report_steepness(work, census.steep_share);
}

void find_fit(VeinWork& work) { work.model->fit = fit_rows(*work.model, fit_data(work)); }

void summarise(VeinWork& work) {
    Vein::Model& model = *work.model;
    VeinSummary& summary = model.summary;
    std::vector<double> thicknesses;
    double squares = 0.0, covered = 0.0;
    for (const FitRow& row : model.fit) {
        squares += std::pow(row.actual_depth - row.predicted_depth, 2);
        covered += row.actual_depth >= row.depth_p10 && row.actual_depth <= row.depth_p90 ? 1.0 : 0.0;
        if (row.actual_thickness) thicknesses.push_back(*row.actual_thickness);
    }
    summary.intercepts = model.fit.size();
    for (std::size_t i = 0; i < work.evidence.size(); ++i) {
        const bool oriented = work.evidence[i].kind == Evidence::Kind::intercept && work.surface[i].normal;
        summary.oriented += oriented ? 1 : 0;
    }
    for (const NoVein& row : model.no_vein) summary.no_vein += row.is_miss() ? 1 : 0;
    const SurfaceParameters parameters = parameters_of(*model.surface);
    summary.range = parameters.range;
    summary.slope_sd = parameters.slope_sd;
    summary.thickness_median = thicknesses.empty() ? 0.0 : numerics::median(thicknesses);
    if (!model.fit.empty()) {
        summary.residual_rms = std::sqrt(squares / static_cast<double>(model.fit.size()));
        summary.coverage80 = covered / static_cast<double>(model.fit.size());
    }
    summary.hole_spacing = model.spacing;
    summary.step_out = model.extent.step_out;
    summary.prior_only = summary.intercepts < fewest_intercepts;
}

}  // namespace selvage::veins
