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

// The datum with the normal on its cone that is nearest to the surface's own, free to turn about the hole: linear there, so that
// it is taken again at the fit's slopes. Left out where the cone lies too far off.
SurfaceDatum with_normal_of_alpha(SurfaceDatum datum, const Eigen::Vector2d& slopes) {
    constexpr double turn_sd = 1.0;       // radians: the turn is not known
    constexpr double least_upward = 0.5;  // a normal over 60 degrees off the base plane's
    constexpr double square_to_hole = 1e-3;
    const Eigen::Vector3d& hole = datum.alpha->hole_direction;
    const Eigen::Vector3d surface = Eigen::Vector3d(-slopes.x(), -slopes.y(), 1.0).normalized();
    const Eigen::Vector3d across = surface - hole * hole.dot(surface);
    if (across.norm() < square_to_hole) return datum;
    const double side = hole.dot(surface) < 0.0 ? -1.0 : 1.0;
    const Eigen::Vector3d normal = side * datum.alpha->alpha.sin() * hole + datum.alpha->alpha.cos() * across.normalized();
    if (normal.z() < least_upward) return datum;
    datum.normal = normal;
    const paths::SourceId turn{paths::SourceKind::core_turn, datum.alpha->number.first, datum.alpha->number.second};
    datum.effects.push_back({{turn, paths::Scope::station, turn_sd}, Eigen::Vector3d::Zero(), hole});
    return datum;
}

std::vector<SurfaceDatum> with_normals_of_alphas(std::vector<SurfaceDatum> data, const std::vector<Eigen::Vector2d>& slopes) {
    for (std::size_t i = 0; i < data.size(); ++i)
        if (data[i].alpha) data[i] = with_normal_of_alpha(std::move(data[i]), slopes[i]);
    return data;
}

// Few data with an attitude among them lay the base plane alone: a tilt held near that plane would use them twice, and the ranges
// far from them come out too narrow. There the data alone tell the tilt.
constexpr std::size_t few_data = 6;
constexpr double free_tilt_sd = 2.0;  // a slope

bool tells_its_own_tilt(const std::vector<SurfaceDatum>& data) {
    return data.size() < few_data &&
           std::any_of(data.begin(), data.end(), [](const SurfaceDatum& datum) { return datum.normal && !datum.alpha; });
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
    rows.values = rows.core = rows.own_unscaled = rows.own_scaled = Eigen::VectorXd::Zero(next);
}

void add_datum(SurfaceRows& rows, const RowPlace& place, const SurfaceDatum& datum, const Eigen::Vector2d& surface_slopes) {
    if (place.has_height) {
        rows.values(place.first) = *datum.height;
        rows.own_unscaled(place.first) += std::max(datum.fixed_variance, least_height_sd * least_height_sd);
        rows.own_scaled(place.first) += datum.scaled_variance;
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
        rows.own_unscaled(row) += s2 * own;
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

void lay_out_sources(SurfaceRows& rows, const std::vector<SurfaceDatum>& data, const std::vector<Eigen::Vector2d>& slopes) {
    std::map<paths::SourceId, RowSource> gathered;
    std::map<std::string, std::size_t> holes;
    for (std::size_t p = 0; p < rows.places.size(); ++p) {
        const std::size_t i = rows.datum[p];
        gather_sources(gathered, rows, rows.places[p], data[i], slopes[i]);
        rows.hole.push_back(holes.emplace(data[i].hole, holes.size()).first->second);
    }
    for (auto& [id, source] : gathered) rows.sources.push_back(std::move(source));
}

// Which sources touch each place, from the effects on its rows.
void note_sources_of_places(SurfaceRows& rows) {
    rows.sources_of_place.assign(rows.places.size(), {});
    for (std::size_t s = 0; s < rows.sources.size(); ++s) {
        std::size_t place = 0;
        for (const auto& [row, effect] : rows.sources[s].effects) {
            while (row >= rows.places[place].first + rows.places[place].count()) ++place;
            std::vector<std::size_t>& noted = rows.sources_of_place[place];
            if (noted.empty() || noted.back() != s) noted.push_back(s);
        }
    }
}

void add_source(SurfaceRows& rows, const RowSource& source, const std::vector<std::size_t>& hole_of_row) {
    Eigen::MatrixXd& matrix = is_scaled(source.source) ? rows.scaled : rows.unscaled;
    const double variance = source.source.sd * source.source.sd;
    for (const auto& [row, effect] : source.effects)
        for (const auto& [column, other] : source.effects)
            if (column <= row && (rows.shared_sources ||
                                  hole_of_row[static_cast<std::size_t>(row)] == hole_of_row[static_cast<std::size_t>(column)]))
                matrix(row, column) += effect * variance * other;
}

void add_trend(SurfaceRows& rows) {
    Eigen::MatrixXd trend = Eigen::MatrixXd::Zero(rows.values.size(), 3);
    for (const RowPlace& place : rows.places) {
        if (place.has_height) trend.row(place.first) << 1.0, place.place.x(), place.place.y();
        if (!place.has_slopes) continue;
        trend(place.slope_row(), 1) = rows.slope_scale;
        trend(place.slope_row() + 1, 2) = rows.slope_scale;
    }
    rows.unscaled.triangularView<Eigen::Lower>() += trend * rows.trend_variances.asDiagonal() * trend.transpose();
}

}  // namespace

SurfaceRows rows_without_matrices(const std::vector<SurfaceDatum>& given, const std::vector<Eigen::Vector2d>& slopes,
                                  double spacing, const SurfaceRules& rules) {
    const std::vector<SurfaceDatum> data = with_normals_of_alphas(given, slopes);
    SurfaceRows rows;
    rows.slope_scale = spacing;
    rows.shared_sources = rules.shared_sources;
    if (tells_its_own_tilt(data)) rows.trend_variances.tail<2>().setConstant(free_tilt_sd * free_tilt_sd);
    rows.datum = order_by_place(data);
    lay_out(rows, data);
    for (std::size_t p = 0; p < rows.places.size(); ++p) {
        const std::size_t i = rows.datum[p];
        add_datum(rows, rows.places[p], data[i], slopes[i]);
    }
    lay_out_sources(rows, data, slopes);
    note_sources_of_places(rows);
    return rows;
}

void fill_matrices(SurfaceRows& rows) {
    rows.unscaled = rows.own_unscaled.asDiagonal();
    rows.scaled = rows.own_scaled.asDiagonal();
    std::vector<std::size_t> hole_of_row;
    for (std::size_t p = 0; p < rows.places.size(); ++p)
        hole_of_row.insert(hole_of_row.end(), static_cast<std::size_t>(rows.places[p].count()), rows.hole[p]);
    for (const RowSource& source : rows.sources) add_source(rows, source, hole_of_row);
    add_trend(rows);
}

SurfaceRows surface_rows(const std::vector<SurfaceDatum>& data, const std::vector<Eigen::Vector2d>& slopes, double spacing,
                         const SurfaceRules& rules) {
    SurfaceRows rows = rows_without_matrices(data, slopes, spacing, rules);
    fill_matrices(rows);
    return rows;
}

SurfaceRows rows_of_places(const SurfaceRows& rows, const std::vector<std::size_t>& places) {
    SurfaceRows part;
    part.centre = rows.centre;
    part.slope_scale = rows.slope_scale;
    part.shared_sources = rows.shared_sources;
    part.trend_variances = rows.trend_variances;
    std::vector<Eigen::Index> taken;
    std::map<std::size_t, RowSource> sources;  // by number, so by id
    for (const std::size_t p : places) {
        const RowPlace& from = rows.places[p];
        RowPlace place = from;
        place.first = static_cast<Eigen::Index>(taken.size());
        for (Eigen::Index i = 0; i < place.count(); ++i) taken.push_back(from.first + i);
        for (const std::size_t s : rows.sources_of_place[p]) {
            RowSource& source = sources[s];
            source.source = rows.sources[s].source;
            const auto& effects = rows.sources[s].effects;
            auto effect = std::lower_bound(effects.begin(), effects.end(), from.first,
                                           [](const auto& a, Eigen::Index row) { return a.first < row; });
            for (; effect != effects.end() && effect->first < from.first + from.count(); ++effect)
                source.effects.emplace_back(place.first + effect->first - from.first, effect->second);
        }
        part.places.push_back(place);
        part.datum.push_back(rows.datum[p]);
        part.hole.push_back(rows.hole[p]);
    }
    for (auto& [number, source] : sources) part.sources.push_back(std::move(source));
    note_sources_of_places(part);
    part.values = rows.values(taken);
    part.core = rows.core(taken);
    part.own_unscaled = rows.own_unscaled(taken);
    part.own_scaled = rows.own_scaled(taken);
    fill_matrices(part);
    return part;
}

bool is_scaled(const paths::ErrorSource& source) {
    return !paths::is_deviation(source.id.kind) && !paths::is_fault_slip(source.id.kind);
}

SharedError shared_error(const SurfaceRows& rows, const std::vector<std::pair<paths::ErrorSource, double>>& effects) {
    const Eigen::VectorXd none = Eigen::VectorXd::Zero(rows.values.size());
    SharedError shared{none, none};
    for (const auto& [source, effect] : effects) {
        const auto found = std::lower_bound(rows.sources.begin(), rows.sources.end(), source.id,
                                            [](const RowSource& a, const paths::SourceId& id) { return a.source.id < id; });
        if (found == rows.sources.end() || !(found->source.id == source.id)) continue;
        Eigen::VectorXd& sum = is_scaled(source) ? shared.scaled : shared.unscaled;
        for (const auto& [row, on_row] : found->effects) sum(row) += on_row * source.sd * source.sd * effect;
    }
    return shared;
}

}  // namespace selvage::veins
