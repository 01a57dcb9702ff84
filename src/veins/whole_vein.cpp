#include "numerics/median.h"
#include "veins/fit.h"
#include "veins/parent_wall.h"
#include "veins/vein_messages.h"
#include "veins/vein_work.h"

#include <Eigen/Geometry>

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

// Within any of the blocks.
bool is_modelled(const Vein::Model& model, const Eigen::Vector2d& place) {
    return std::any_of(model.parts.begin(), model.parts.end(),
                       [&](const BlockPart& part) { return margin_at(part.extent, place).inside >= 0.0; });
}

SurfaceCensus census_of(const Vein::Model& model) {
    constexpr double steep = 1.0;  // slope, 45 degrees
    SurfaceCensus census;
    Eigen::AlignedBox2d around;
    for (const BlockPart& part : model.parts)
        for (const Eigen::Vector2d& hit : part.extent.hits) around.extend(hit);
    if (around.isEmpty()) return census;
    const Eigen::Vector2d lower = around.min(), upper = around.max();
    const Eigen::Vector2d reach = Eigen::Vector2d::Constant(model.step_out);
    const Eigen::Vector2d box = upper - lower + 2.0 * reach;
    constexpr int columns = 60;
    Eigen::Vector3d sum = Eigen::Vector3d::Zero();
    double stretch = 0.0, inside = 0.0, steep_ones = 0.0;
    for (int row = 0; row < columns; ++row) {
        for (int column = 0; column < columns; ++column) {
            const Eigen::Vector2d share((column + 0.5) / columns, (row + 0.5) / columns);
            const Eigen::Vector2d place = lower - reach + box.cwiseProduct(share);
            if (!is_modelled(model, place)) continue;
            const Eigen::Vector2d gradient = model.lattice->at(place).gradient;
            sum += slope_row_of(gradient);
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
        FitDatum datum{&work.evidence[i], i, std::nullopt, std::nullopt, work.windows[i]};
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
void lay_extent(VeinWork& work, const site::Site& site) {
    Vein::Model& model = *work.model;
    const auto is_hit = [](const Evidence& one) { return one.present; };
    const auto is_stated = [](const Evidence& one) { return one.kind == Evidence::Kind::stated; };
    const auto is_miss = [](const Evidence& one) { return one.kind == Evidence::Kind::intercept && !one.present; };
    const bool stated_alone = places_where(work, is_hit).empty();
    const auto blocks = std::make_shared<const faults::Blocks>(model.blocks);
    for (std::size_t block = 0; block < model.parts.size(); ++block) {
        Extent& extent = model.parts[block].extent;
        extent.chart = model.parts[block].chart;
        extent.step_out = model.step_out;
        extent.hits = stated_alone ? places_where(work, is_stated, block) : places_where(work, is_hit, block);
        extent.misses = places_where(work, is_miss, block);
        for (const NoVein& row : model.no_vein)
            if (row.is_miss() && row.block == block)
                extent.misses.emplace_back(extent.chart.chart_from_world(row.point).head<2>());
        extent.presence = [window = model.window, drawn = model.drawn_thickness](const Eigen::Vector2d& place) {
            return window->at(place) * drawn->at(place).chance_of_more_than_trace;
        };
        extent.ground = site.ground;
        extent.property = site.property;
        if (model.blocks.is_cut())
            extent.within_block = [blocks, block](const Eigen::Vector3d& point) { return blocks->inside(block, point); };
        if (model.parent_wall)
            extent.before_parent = [wall = model.parent_wall](const Eigen::Vector3d& point) { return wall->before(point); };
        extent.height = [lattice = model.lattice, slip = model.parts[block].mean_slip](const Eigen::Vector2d& place) {
            return moved_by(slip, lattice->at(place)).height;
        };
    }
}

void find_presence(VeinWork& work) {
    Vein::Model& model = *work.model;
    std::vector<PresenceDatum> data;
    const auto counts = [](const Evidence& one) { return one.point && one.kind != Evidence::Kind::stated; };
    for (const Evidence& one : work.evidence)
        if (counts(one)) {
            const bool sure = one.intercept == nullptr || one.intercept->certainty < 2;
            data.push_back({place_of(work, one), one.present, sure});
        }
    for (const NoVein& row : model.no_vein)
        if (row.is_miss()) data.push_back({model.parts[row.block].chart.chart_from_world(row.point).head<2>(), false, true});
    model.presence = fit_presence(data, model.spacing);
    model.window = std::make_shared<const PresenceLattice>(model.presence, model.lattice->lattice());

    const std::vector<double> chances = leave_one_out_presences(*model.presence);
    std::size_t next = 0;
    for (const Evidence& one : work.evidence) work.windows.push_back(counts(one) ? chances[next++] : 1.0);
    for (NoVein& row : model.no_vein)
        if (row.is_miss()) {
            const Eigen::Vector2d& place = data[next].place;
            row.presence = chances[next++] * model.drawn_thickness->at(place).chance_of_more_than_trace;
        }
}

void draw_outline(VeinWork& work) {
    Vein::Model& model = *work.model;
    double area = 0.0;
    for (std::size_t block = 0; block < model.parts.size(); ++block) {
        const ExtentOutline lines = outline_of(model.parts[block].extent, model.spacing);
        area += lines.area;
        for (const OutlinePiece& piece : lines.pieces) {
            EdgeLine line;
            line.block = model.blocks.name(block);
            line.reason = piece.reason;
            for (const Eigen::Vector2d& place : piece.places)
                line.points.push_back(model.parts[block].chart.world_from_chart(
                    {place.x(), place.y(), drawn_at(model, model.parts[block], place).mid}));
            model.edges.push_back(std::move(line));
        }
    }
    const SurfaceCensus census = census_of(model);
    model.summary.area = area * census.stretch;
    model.summary.attitude = base::attitude_of_normal(model.chart.chart_from_world_rotation.transpose() * census.normal);
    report_steepness(work, census.steep_share);
}

// Today's plane: the blocks' shifts weighed by what was met in each.
void lay_mean_plane(VeinWork& work) {
    Vein::Model& model = *work.model;
    Eigen::Vector3d shift = Eigen::Vector3d::Zero();
    for (std::size_t block = 0; block < model.parts.size(); ++block)
        shift += model.blocks.shift(block) *
                 (static_cast<double>(model.parts[block].met.size()) / static_cast<double>(model.met.size()));
    model.plane = {model.chart.centre + shift, model.chart.w()};
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
    summary.step_out = model.step_out;
    summary.prior_only = summary.intercepts < fewest_intercepts;
}

}  // namespace selvage::veins
