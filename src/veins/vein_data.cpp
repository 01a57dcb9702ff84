#include "veins/vein_data.h"

#include "paths/locate.h"
#include "veins/base_plane.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace selvage::veins {

namespace {

using tables::PickState;

constexpr double usual_pick_sd = 0.15;           // m along the hole, of a pick's middle
constexpr double void_sd = 0.5;                  // m along the hole, at least
constexpr double likely_sd = 2.0;                // m more, of a pick of certainty 2: it may be another structure
constexpr double same_place = 0.05;              // m: two intercepts this near are one
constexpr double least_recovery_of_grade = 0.5;  // under it a grade speaks of what is left
constexpr double stated_point_sd = 5.0;          // m
constexpr double trench_sd = 0.5;                // m each way
const Eigen::Vector3d outcrop_sd(3.0, 3.0, 5.0);
constexpr double weathered_thickness_sd = 0.15;  // of the log, picked by eye
constexpr double weathered_grade_sd = 0.35;      // of the log
const base::Angle outcrop_attitude_sd = base::Angle::degrees(5);
const base::Angle stated_attitude_sd = base::Angle::degrees(10);
const base::Angle steepest_hole = base::Angle::degrees(88);  // beyond it there is no beta
const base::Angle least_alpha = base::Angle::degrees(15), most_alpha = base::Angle::degrees(78);
const base::Angle widest_normal = base::Angle::degrees(60);

double uniform_sd(double length) { return length / std::sqrt(12.0); }

// A pick's own error of its contacts, where one is given; one that is not has the usual middle's share.
std::optional<double> stated_pick_variance(const intercepts::Intercept& met) {
    if (!met.from_sd && !met.to_sd) return std::nullopt;
    const double usual = usual_pick_sd * std::sqrt(2.0);
    const double from = met.from_sd.value_or(usual), to = met.to_sd.value_or(usual);
    return from * from + to * to;  // of the length; the middle's is a quarter of it
}

double pick_sd(const intercepts::Intercept& met) {
    const std::optional<double> stated = stated_pick_variance(met);
    const double own = stated ? std::sqrt(*stated) / 2.0 : usual_pick_sd;
    switch (met.state) {
        case PickState::open_void: return std::max(void_sd, uniform_sd(met.length()));
        case PickState::lost: return own + uniform_sd(met.lost_length > 0.0 ? met.lost_length : met.length());
        default: return own + uniform_sd(met.lost_length);  // added, not squared: the safe side
    }
}

Evidence from_intercept(const intercepts::Intercept& met, const paths::Path& path) {
    Evidence one;
    one.kind = Evidence::Kind::intercept;
    one.name = met.hole;
    one.intercept = &met;
    one.path = &path;
    one.point = met.point;
    one.normal = met.core_normal;
    one.along_hole_sd = pick_sd(met);
    one.present = met.state != PickState::structure;
    one.drill_hole = tables::is_drill_hole(path.type);
    return one;
}

Evidence from_outcrop(const tables::Outcrop& outcrop, std::size_t number) {
    Evidence one;
    one.kind = Evidence::Kind::outcrop;
    one.name = fmt::format("outcrop {}", number);
    one.outcrop = &outcrop;
    one.point = outcrop.position;
    if (outcrop.attitude) one.normal = base::upward_normal(*outcrop.attitude);
    one.point_sd = outcrop.trench ? Eigen::Vector3d::Constant(trench_sd) : outcrop_sd;
    one.normal_sd = outcrop_attitude_sd.radians();
    one.present = true;
    return one;
}

std::optional<Evidence> from_setting(const settings::VeinSetting& vein, const base::MapFrame& frame) {
    Evidence one;
    one.kind = Evidence::Kind::stated;
    one.name = "stated plane";
    if (vein.point) one.point = *vein.point - frame.origin;
    if (vein.dip && vein.dip_direction) one.normal = base::upward_normal({*vein.dip, *vein.dip_direction});
    if (!one.point && !one.normal) return std::nullopt;
    one.point_sd = Eigen::Vector3d::Constant(vein.point_sd.value_or(stated_point_sd));
    one.normal_sd = vein.attitude_sd.value_or(stated_attitude_sd).radians();
    return one;
}

bool comes_first(const Eigen::Vector3d& a, const Eigen::Vector3d& b) {
    return std::lexicographical_compare(a.data(), a.data() + 3, b.data(), b.data() + 3);
}

// Sd of a point along an unknown normal: the mean of the three ways.
double mean_sd(const Evidence& one) {
    double variance = one.along_hole_sd * one.along_hole_sd + one.point_sd.squaredNorm() / 3.0;
    if (one.path != nullptr) variance += paths::covariance_at(*one.path, one.intercept->middle()).trace() / 3.0;
    if (one.intercept != nullptr && one.intercept->certainty == 2) variance += likely_sd * likely_sd;
    return std::sqrt(variance);
}

void add_height(const Evidence& evidence, const Chart& chart, SurfaceDatum& datum) {
    const Eigen::Vector3d place = chart.chart_from_world(*evidence.point);
    const Eigen::Vector3d normal = chart.w();
    datum.place = place.head<2>();
    datum.height = place.z();
    datum.fixed_variance = 0.15 * 0.15 + normal.cwiseProduct(evidence.point_sd).squaredNorm();
    datum.effects = chart_effects(chart, evidence.slips);
    if (evidence.intercept == nullptr) return;
    const double across = evidence.along_hole_sd * normal.dot(evidence.intercept->hole_direction);
    datum.scaled_variance = across * across;
    if (evidence.intercept->certainty == 2) datum.fixed_variance += likely_sd * likely_sd;
    for (ChartEffect& effect : chart_effects(chart, paths::effects_at(*evidence.path, evidence.intercept->middle())))
        datum.effects.push_back(std::move(effect));
}

// Variance of both slopes by the low side of the core readings: badly defined near the vertical, it turns the normal about the
// hole by the tool's tilt over the cosine of the hole's dip.
Eigen::Vector2d low_side_variance(const Evidence& evidence, const Chart& chart, const Eigen::Vector3d& normal,
                                  base::Angle tool_tilt) {
    const Eigen::Vector3d hole = chart.chart_from_world_rotation * evidence.intercept->hole_direction;
    const double level = std::max(evidence.intercept->hole_direction.head<2>().norm(), steepest_hole.cos());
    const Eigen::Vector3d turn = hole.cross(normal) * (tool_tilt.radians() / level);
    const Eigen::Vector2d slopes = (normal.head<2>() * turn.z() / normal.z() - turn.head<2>()) / normal.z();
    return slopes.cwiseAbs2() / static_cast<double>(std::max<std::size_t>(1, evidence.intercept->poles));
}

void add_normal(const Evidence& evidence, const Chart& chart, base::Angle tool_tilt, SurfaceDatum& datum) {
    const Eigen::Vector3d measured = chart.chart_from_world_rotation * *evidence.normal;
    const Eigen::Vector3d normal = measured.z() < 0.0 ? Eigen::Vector3d(-measured) : measured;
    datum.normal = normal;
    if (evidence.intercept != nullptr) datum.gradient_stated_variance = low_side_variance(evidence, chart, normal, tool_tilt);
    if (evidence.kind == Evidence::Kind::outcrop) datum.gradient_extra_variance = evidence.normal_sd * evidence.normal_sd;
    if (evidence.kind != Evidence::Kind::stated) return;
    // A strike is known the worse the flatter the plane.
    const double dip = base::attitude_of_normal(*evidence.normal).dip.sin();
    datum.gradient_core_noise = false;
    datum.gradient_stated_variance = Eigen::Vector2d(evidence.normal_sd * dip, evidence.normal_sd).cwiseAbs2();
}

// Nearly along the core its turn tells much that is not known here, nearly square to it alpha tells no slope.
void add_alpha(const Evidence& evidence, const Chart& chart, SurfaceDatum& datum) {
    const std::optional<base::Angle>& alpha = evidence.intercept->mean_alpha;
    if (!alpha || *alpha < least_alpha || most_alpha < *alpha) return;
    const int hole = static_cast<int>(evidence.path->number),
              contact = static_cast<int>(std::lround(evidence.intercept->middle()));
    datum.alpha = AlphaAlone{*alpha, chart.chart_from_world_rotation * evidence.intercept->hole_direction, {hole, contact}};
}

// Length of core that is vein, and its sd: what was lost beside it may or may not have been.
struct CoreLength {
    double length = 0.0, sd = 0.0;  // m along the hole
};
CoreLength core_length(const intercepts::Intercept& met) {
    const double lost = std::min(met.lost_length, met.length());
    const double pick_variance = stated_pick_variance(met).value_or(0.0);
    return {met.length() - lost / 2.0, std::sqrt(pick_variance + uniform_sd(lost) * uniform_sd(lost))};
}

}  // namespace

std::vector<Evidence> evidence_of(const settings::VeinSetting& vein, const intercepts::Intercepts& intercepts,
                                  const std::vector<paths::Path>& paths, const tables::Records& records) {
    std::vector<Evidence> all;
    for (const intercepts::Intercept& met : intercepts.met) {
        if (met.vein != vein.name || met.certainty > 2) continue;
        const paths::Path* path = paths::path_of(paths, met.hole);
        const bool repeated = std::any_of(all.begin(), all.end(),
                                          [&](const Evidence& one) { return (*one.point - met.point).norm() < same_place; });
        if (path != nullptr && !repeated) all.push_back(from_intercept(met, *path));
    }
    std::size_t number = 0;
    for (const tables::Outcrop& outcrop : records.outcrops) {
        ++number;
        if (outcrop.vein == vein.name) all.push_back(from_outcrop(outcrop, number));
    }
    if (const auto stated = from_setting(vein, records.frame)) all.push_back(*stated);
    return all;
}

Eigen::AlignedBox3d ground_of(const std::vector<Evidence>& evidence, const std::vector<paths::Path>& paths) {
    constexpr double around = 500.0;  // m: further than a vein is prolonged
    Eigen::AlignedBox3d box;
    for (const Evidence& one : evidence)
        if (one.point) box.extend(*one.point);
    for (const paths::Path& path : paths) {
        if (path.status != tables::HoleStatus::planned && path.status != tables::HoleStatus::active) continue;
        box.extend(paths::position_at(path, path.start_depth));
        box.extend(paths::position_at(path, path.end_depth));
    }
    if (box.isEmpty()) box.extend(Eigen::Vector3d::Zero());
    return {box.min() - Eigen::Vector3d::Constant(around), box.max() + Eigen::Vector3d::Constant(around)};
}

void place_in_blocks(std::vector<Evidence>& evidence, const faults::Blocks& blocks) {
    for (Evidence& one : evidence) {
        if (one.point) one.block = blocks.at(*one.point);
        one.shift = blocks.shift(one.block);
        one.slips = slip_effects(blocks, one.block);
    }
}

std::vector<paths::SourceEffect> slip_effects(const faults::Blocks& blocks, std::size_t block) {
    using paths::SourceKind;
    std::vector<paths::SourceEffect> effects;
    for (std::size_t f = 0; f < blocks.faults().size(); ++f) {
        const faults::Fault& fault = blocks.faults()[f];
        if (!blocks.on_hanging_side(block, f) || fault.slip_sd <= 0.0) continue;
        Eigen::Index axis = 0;
        for (const SourceKind kind :
             {SourceKind::fault_slip_east, SourceKind::fault_slip_north, SourceKind::fault_slip_elevation}) {
            const paths::SourceId id{kind, static_cast<int>(fault.number), 0};
            effects.push_back(
                {{id, paths::Scope::project, fault.slip_sd}, -Eigen::Vector3d::Unit(axis++), Eigen::Vector3d::Zero()});
        }
    }
    return effects;
}

std::optional<base::Plane> plane_through(const std::vector<Evidence>& evidence) {
    std::vector<PlanePoint> points;
    std::vector<PlaneNormal> normals;
    for (const Evidence& one : evidence) {
        if (one.point) points.push_back({*one.point - one.shift, mean_sd(one)});
        if (!one.normal) continue;
        const double core = one.kind == Evidence::Kind::stated ? 0.0 : usual_attitude_sd;
        normals.push_back({*one.normal, std::hypot(one.normal_sd, core)});
    }
    if (points.empty()) return std::nullopt;
    // By place, so that the order of the holes leaves no trace in the sums.
    std::stable_sort(points.begin(), points.end(),
                     [](const PlanePoint& a, const PlanePoint& b) { return comes_first(a.position, b.position); });
    std::stable_sort(normals.begin(), normals.end(),
                     [](const PlaneNormal& a, const PlaneNormal& b) { return comes_first(a.normal, b.normal); });
    return base_plane(points, normals);
}

bool turns_over(const Evidence& evidence, const Chart& chart) {
    return evidence.normal && std::abs(evidence.normal->dot(chart.w())) < widest_normal.cos();
}

SurfaceDatum surface_datum(const Evidence& evidence, const Chart& chart, base::Angle tool_tilt, bool alpha_as_data) {
    SurfaceDatum datum;
    datum.hole = evidence.name;
    if (evidence.point) add_height(evidence, chart, datum);
    if (evidence.normal && !turns_over(evidence, chart)) add_normal(evidence, chart, tool_tilt, datum);
    if (alpha_as_data && !evidence.normal && evidence.intercept != nullptr) add_alpha(evidence, chart, datum);
    return datum;
}

WallContacts wall_contacts(const Evidence& evidence, const Chart& chart) {
    const intercepts::Intercept& met = *evidence.intercept;
    WallContacts contacts{met.hole, chart.chart_from_world(paths::position_at(*evidence.path, met.from)),
                          chart.chart_from_world(paths::position_at(*evidence.path, met.to))};
    if (met.hole_direction.dot(chart.w()) > 0.0) std::swap(contacts.hanging, contacts.foot);
    return contacts;
}

std::optional<LogDatum> thickness_datum(const Evidence& evidence, const Chart& chart, const Eigen::Vector2d& gradient,
                                        const Eigen::Vector2d& gradient_sd) {
    if (!evidence.present || !evidence.point) return std::nullopt;
    LogDatum datum;
    datum.place = chart.chart_from_world(*evidence.point).head<2>();
    if (evidence.outcrop != nullptr) {
        if (!evidence.outcrop->thickness || *evidence.outcrop->thickness <= 0.0) return std::nullopt;
        datum.log_value = std::log(*evidence.outcrop->thickness * std::sqrt(1.0 + gradient.squaredNorm()));
        datum.own_variance = weathered_thickness_sd * weathered_thickness_sd;
        return datum;
    }
    if (!evidence.has_walls()) return std::nullopt;
    const WallContacts contacts = wall_contacts(evidence, chart);
    const Eigen::Vector3d across = contacts.hanging - contacts.foot;
    const double as_logged = across.z() - gradient.dot(across.head<2>());
    const CoreLength core = core_length(*evidence.intercept);
    if (as_logged <= 0.0 || core.length <= 0.0) return std::nullopt;
    const double factor = as_logged / evidence.intercept->length();
    const double by_slope = gradient_sd.cwiseProduct(across.head<2>()).norm();
    datum.log_value = std::log(core.length * factor);
    datum.own_variance = (core.sd * core.sd * factor * factor + by_slope * by_slope) / std::pow(core.length * factor, 2);
    return datum;
}

std::optional<double> grade_of(const Evidence& evidence, std::size_t analyte) {
    if (!evidence.present) return std::nullopt;
    if (evidence.outcrop != nullptr) {
        return analyte < evidence.outcrop->values.size() ? evidence.outcrop->values[analyte].value : std::nullopt;
    }
    if (!evidence.has_walls() || analyte >= evidence.intercept->grades.size()) return std::nullopt;
    if (evidence.intercept->recovery.value_or(1.0) < least_recovery_of_grade) return std::nullopt;
    const auto& grade = evidence.intercept->grades[analyte];
    return grade ? std::optional<double>(grade->value) : std::nullopt;
}

std::optional<LogDatum> grade_datum(const Evidence& evidence, const Chart& chart, std::size_t analyte, double least) {
    const std::optional<double> grade = grade_of(evidence, analyte);
    if (!grade || !evidence.point) return std::nullopt;
    LogDatum datum;
    datum.place = chart.chart_from_world(*evidence.point).head<2>();
    datum.log_value = std::log(std::max(*grade, least));
    if (evidence.outcrop != nullptr) datum.own_variance = weathered_grade_sd * weathered_grade_sd;
    return datum;
}

}  // namespace selvage::veins
