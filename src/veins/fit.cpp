#include "veins/fit.h"

#include "base/parallel.h"

#include <algorithm>
#include <cmath>

namespace selvage::veins {

namespace {

constexpr double least_angle_sine = 0.02;  // about a degree: below it a depth along the hole means nothing

// Log of the true thickness foretold there; empty: no intercept tells it.
numerics::NormalMixture foretold_log_thickness(const Vein::Model& model, const FitDatum& datum, const Eigen::Vector2d& place,
                                               double stretch) {
    if (!model.thickness) return {};
    return numerics::shifted(
        datum.thickness ? leave_one_out_log(*model.thickness, *datum.thickness) : log_value_at(*model.thickness, place),
        -stretch);
}

void add_thickness(const FitDatum& datum, const numerics::NormalMixture& foretold, double stretch, FitRow& row) {
    if (datum.log_thickness) row.actual_thickness = std::exp(*datum.log_thickness - stretch);
    if (!datum.thickness) return;
    row.predicted_thickness = std::exp(foretold.quantile(0.5));
    row.thickness_p10 = std::exp(foretold.quantile(0.1));
    row.thickness_p90 = std::exp(foretold.quantile(0.9));
}

FitRow fit_row(const Vein::Model& model, const FitDatum& datum) {
    const intercepts::Intercept& met = *datum.evidence->intercept;
    const Eigen::Vector3d place = model.parts[datum.evidence->block].chart.chart_from_world(met.point);
    const Eigen::Vector2d gradient = model.lattice->at(place.head<2>()).gradient;
    const Eigen::Vector3d hole = model.chart.chart_from_world_rotation * met.hole_direction;
    const double rise = slope_row_of(gradient).dot(hole);
    const double along = 1.0 / std::copysign(std::max(std::abs(rise), least_angle_sine), rise);
    const numerics::NormalMixture height = leave_one_out_height(*model.surface, datum.height);
    const numerics::NormalMixture depth =
        numerics::shifted(numerics::scaled(numerics::shifted(height, -place.z()), along), met.middle());
    FitRow row;
    row.hole = met.hole;
    row.actual_depth = met.middle();
    row.predicted_depth = depth.quantile(0.5);
    row.depth_p10 = depth.quantile(0.1);
    row.depth_p90 = depth.quantile(0.9);
    row.depth_sd = (row.depth_p90 - row.depth_p10) / 2.563;
    const double below = depth.cumulative(row.actual_depth);
    row.two_sided_probability = 2.0 * std::min(below, 1.0 - below);
    const double stretch = log_stretch(gradient);
    const numerics::NormalMixture log_thickness = foretold_log_thickness(model, datum, place.head<2>(), stretch);
    add_thickness(datum, log_thickness, stretch, row);
    row.present = datum.evidence->present;
    row.presence = datum.window * chance_of_more_than_trace(log_thickness);
    return row;
}

}  // namespace

std::vector<FitRow> fit_rows(const Vein::Model& model, const std::vector<FitDatum>& data) {
    std::vector<FitRow> rows(data.size());
    base::parallel_for(data.size(), [&](std::size_t i) { rows[i] = fit_row(model, data[i]); });
    return rows;
}

}  // namespace selvage::veins
