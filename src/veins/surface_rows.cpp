#include "veins/surface_rows.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>
#include <tuple>

namespace selvage::veins {

namespace {

constexpr double least_height_sd = 0.05;                // m; finer than any pick
constexpr double least_slope_sd = 2.0 * 0.01745329252;  // 2 degrees; finer than any core angle

// Slope along u and v of a plane with this normal.
Eigen::Vector2d slopes_of(const Eigen::Vector3d& normal) { return -normal.head<2>() / normal.z(); }

// Change of those slopes when the normal changes by dn.
Eigen::Vector2d slope_change(const Eigen::Vector3d& normal, const Eigen::Vector3d& dn) {
    return (normal.head<2>() * dn.z() / normal.z() - dn.head<2>()) / normal.z();
}

std::vector<std::size_t> order_by_place(const std::vector<SurfaceDatum>& data) {
    std::vector<std::size_t> order(data.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    const auto key = [&](std::size_t i) {
        const SurfaceDatum& d = data[i];
        return std::make_tuple(d.place.x(), d.place.y(), d.height.value_or(0.0), d.hole);
    };
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) { return key(a) < key(b); });
    return order;
}

void lay_out(SurfaceRows& rows, const std::vector<SurfaceDatum>& data) {
    Eigen::Index next = 0;
    for (const std::size_t i : rows.datum) rows.centre += data[i].place / static_cast<double>(data.size());
    for (const std::size_t i : rows.datum) {
        rows.places.push_back({data[i].place - rows.centre, next, data[i].height.has_value(), data[i].normal.has_value()});
        next += rows.places.back().count();
    }
    rows.values = rows.core = Eigen::VectorXd::Zero(next);
    rows.unscaled = rows.scaled = Eigen::MatrixXd::Zero(next, next);
}

void add_datum(SurfaceRows& rows, const RowPlace& place, const SurfaceDatum& datum, const Eigen::Vector2d& surface_slopes) {
    if (place.has_height) {
        rows.values(place.first) = *datum.height;
        rows.unscaled(place.first, place.first) += std::max(datum.fixed_variance, least_height_sd * least_height_sd);
        rows.scaled(place.first, place.first) += datum.scaled_variance;
    }
    if (!place.has_slopes) return;
    const Eigen::Vector2d slopes = slopes_of(*datum.normal);
    for (Eigen::Index axis = 0; axis < 2; ++axis) {
        const Eigen::Index row = place.slope_row() + axis;
        const double s2 = rows.slope_scale * rows.slope_scale;
        const double stretch = 1.0 + surface_slopes(axis) * surface_slopes(axis);  // of a slope by an angle
        rows.values(row) = rows.slope_scale * slopes(axis);
        double own = datum.gradient_extra_variance * stretch * stretch + datum.gradient_stated_variance(axis);
        if (datum.gradient_core_noise)
            rows.core(row) = s2 * stretch * stretch;
        else
            own = std::max(own, least_slope_sd * least_slope_sd);
        rows.unscaled(row, row) += s2 * own;
    }
}

// The datum's effects of each source, gathered by source.
void gather_sources(std::map<paths::SourceId, RowSource>& gathered, const SurfaceRows& rows, const RowPlace& place,
                    const SurfaceDatum& datum, const Eigen::Vector2d& slopes) {
    const Eigen::Vector3d slope_row(-slopes.x(), -slopes.y(), 1.0);
    for (const ChartEffect& effect : datum.effects) {
        RowSource& source = gathered[effect.source.id];
        source.source = effect.source;
        if (place.has_height) source.effects.emplace_back(place.first, slope_row.dot(effect.displacement));
        if (!place.has_slopes || effect.rotation.isZero(0.0)) continue;
        const Eigen::Vector2d change = slope_change(*datum.normal, effect.rotation.cross(*datum.normal));
        source.effects.emplace_back(place.slope_row(), rows.slope_scale * change.x());
        source.effects.emplace_back(place.slope_row() + 1, rows.slope_scale * change.y());
    }
}

void add_source(SurfaceRows& rows, const RowSource& source, const std::vector<std::size_t>& hole_of_row, bool between_holes) {
    Eigen::MatrixXd& matrix = paths::is_deviation(source.source.id.kind) ? rows.unscaled : rows.scaled;
    const double variance = source.source.sd * source.source.sd;
    for (const auto& [row, effect] : source.effects)
        for (const auto& [column, other] : source.effects)
            if (column <= row &&
                (between_holes || hole_of_row[static_cast<std::size_t>(row)] == hole_of_row[static_cast<std::size_t>(column)]))
                matrix(row, column) += effect * variance * other;
}

void add_sources(SurfaceRows& rows, const std::vector<SurfaceDatum>& data, const std::vector<Eigen::Vector2d>& slopes,
                 bool between_holes) {
    std::map<paths::SourceId, RowSource> gathered;
    std::map<std::string, std::size_t> holes;
    std::vector<std::size_t> hole_of_row;
    for (std::size_t p = 0; p < rows.places.size(); ++p) {
        const std::size_t i = rows.datum[p];
        gather_sources(gathered, rows, rows.places[p], data[i], slopes[i]);
        const std::size_t hole = holes.emplace(data[i].hole, holes.size()).first->second;
        hole_of_row.insert(hole_of_row.end(), static_cast<std::size_t>(rows.places[p].count()), hole);
    }
    for (const auto& [id, source] : gathered) {
        add_source(rows, source, hole_of_row, between_holes);
        rows.sources.push_back(source);
    }
}

void add_trend(SurfaceRows& rows) {
    Eigen::MatrixXd trend = Eigen::MatrixXd::Zero(rows.values.size(), 3);
    for (const RowPlace& place : rows.places) {
        if (place.has_height) trend.row(place.first) << 1.0, place.place.x(), place.place.y();
        if (!place.has_slopes) continue;
        trend(place.slope_row(), 1) = rows.slope_scale;
        trend(place.slope_row() + 1, 2) = rows.slope_scale;
    }
    rows.unscaled.triangularView<Eigen::Lower>() += trend * trend_variances().asDiagonal() * trend.transpose();
}

}  // namespace

const Eigen::Vector3d& trend_variances() {
    static const Eigen::Vector3d variances(100.0 * 100.0, 0.5 * 0.5, 0.5 * 0.5);
    return variances;
}

SurfaceRows surface_rows(const std::vector<SurfaceDatum>& data, const std::vector<Eigen::Vector2d>& slopes, double spacing,
                         const SurfaceRules& rules) {
    SurfaceRows rows;
    rows.slope_scale = spacing;
    rows.datum = order_by_place(data);
    lay_out(rows, data);
    for (std::size_t p = 0; p < rows.places.size(); ++p) {
        const std::size_t i = rows.datum[p];
        add_datum(rows, rows.places[p], data[i], slopes[i]);
    }
    rows.own_unscaled = rows.unscaled.diagonal();
    rows.own_scaled = rows.scaled.diagonal();
    add_sources(rows, data, slopes, rules.shared_sources);
    add_trend(rows);
    return rows;
}

SharedError shared_error(const SurfaceRows& rows, const std::vector<std::pair<paths::ErrorSource, double>>& effects) {
    const Eigen::VectorXd none = Eigen::VectorXd::Zero(rows.values.size());
    SharedError shared{none, none};
    for (const auto& [source, effect] : effects) {
        const auto found = std::lower_bound(rows.sources.begin(), rows.sources.end(), source.id,
                                            [](const RowSource& a, const paths::SourceId& id) { return a.source.id < id; });
        if (found == rows.sources.end() || !(found->source.id == source.id)) continue;
        Eigen::VectorXd& sum = paths::is_deviation(source.id.kind) ? shared.unscaled : shared.scaled;
        for (const auto& [row, on_row] : found->effects) sum(row) += on_row * source.sd * source.sd * effect;
    }
    return shared;
}

}  // namespace selvage::veins
