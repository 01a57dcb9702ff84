#include "paths/minimum_curvature.h"
#include "paths/path.h"

#include <Eigen/Geometry>

#include <algorithm>
#include <array>
#include <cassert>
#include <cmath>
#include <cstddef>
#include <vector>

namespace selvage::paths {

namespace {

using Eigen::Vector3d;

// A horizontal part of a unit vector below this gives no azimuth.
constexpr double vertical_noise = 1e-9;

// The horizontal axis about which a positive turn steepens a hole of this azimuth: unit(z x t), also of a vertical hole.
Vector3d steepening_axis(base::Azimuth azimuth) { return {-azimuth.angle().cos(), azimuth.angle().sin(), 0.0}; }

Vector3d steepening_axis_at(const Vector3d& tangent, const Station& near) {
    const double horizontal = std::hypot(tangent.x(), tangent.y());
    if (horizontal < vertical_noise) return steepening_axis(near.direction.azimuth);
    return {-tangent.y() / horizontal, tangent.x() / horizontal, 0.0};
}

Vector3d azimuth_turn(const Station& station) { return Vector3d::UnitZ().cross(station.tangent); }
Vector3d dip_turn(const Station& station) { return steepening_axis(station.direction.azimuth).cross(station.tangent); }

// How far a rate of one moves the end of a run, by how much it turns the hole there, and how far up from the end the middle of
// the turning is, whose axes the movement has.
struct Drift {
    double moved, turned, middle_above;
};
Drift steady(double run) { return {run * run / 2.0, run, run / 3.0}; }
// Of a random walk: the standard deviation of its integral, and that one's growth.
Drift walked(double run) { return {std::sqrt(run * run * run / 3.0), std::sqrt(3.0 * run) / 2.0, 0.4 * run}; }

// What a turn of one station does: how it moves the point, and the station's share in the direction there.
struct StationEffect {
    Vector3d by_azimuth = Vector3d::Zero(), by_dip = Vector3d::Zero();
    double share = 0.0;
};

void add_change(StationEffect& effect, const Arc& arc, double share, const Station& station, bool at_start) {
    const Vector3d none = Vector3d::Zero();
    const Vector3d azimuth = azimuth_turn(station), dip = dip_turn(station);
    effect.by_azimuth += displacement_change_on(arc, share, at_start ? azimuth : none, at_start ? none : azimuth);
    effect.by_dip += displacement_change_on(arc, share, at_start ? dip : none, at_start ? none : dip);
}

Arc arc_of(const Station& from, const Station& to) { return arc_between(from.tangent, to.tangent, to.depth - from.depth); }

// The effect of every station of a path on a point of it, with the core's axes there. Stations further above than the two beside
// the point act by their levers.
class PointOfPath {
public:
    PointOfPath(const Path& path, double depth) : path_(path), depth_(depth) {
        const std::vector<Station>& all = path.stations;
        while (above_ + 1 < all.size() && all[above_ + 1].depth <= depth) ++above_;
        const Station& from = all[above_];
        if (above_ > 0) add_change(beside_[0], arc_of(all[above_ - 1], from), 1.0, from, false);
        if (above_ + 1 == all.size()) {
            const RunOn on = run_on(path, depth - from.depth);
            tangent_ = on.tangent;
            position_ = from.position + on.displacement;
            beside_[0].by_azimuth += Vector3d::UnitZ().cross(on.displacement);
            beside_[0].by_dip += steepening_axis(from.direction.azimuth).cross(on.displacement);
            beside_[0].share = 1.0;
        } else {
            const Station& to = all[above_ + 1];
            const Arc arc = arc_of(from, to);
            const double share = (depth - from.depth) / arc.length;
            tangent_ = direction_on(arc, share);
            position_ = from.position + displacement_on(arc, share);
            add_change(beside_[0], arc, share, from, true);
            add_change(beside_[1], arc, share, to, false);
            beside_[0].share = 1.0 - share;
            beside_[1].share = share;
        }
        steepening_axis_ = steepening_axis_at(tangent_, from);
        const bool past_end = above_ + 1 == all.size();
        dip_axis_ = past_end ? core_turn(steepening_axis(from.direction.azimuth)) : steepening_axis_;
    }

    // Stations from this one on do nothing here.
    std::size_t end() const { return std::min(above_ + 2, path_.stations.size()); }

    StationEffect effect_of(std::size_t station) const {
        if (station >= above_) return station - above_ < 2 ? beside_[station - above_] : StationEffect{};
        return {path_.stations[station].azimuth_lever, path_.stations[station].dip_lever, 0.0};
    }

    // The sum over the stations that `belongs` accepts.
    template <typename Belongs>
    StationEffect sum_over(const Belongs& belongs) const {
        StationEffect sum;
        for (std::size_t i = 0; i < end(); ++i) {
            if (!belongs(path_.stations[i])) continue;
            const StationEffect one = effect_of(i);
            sum.by_azimuth += one.by_azimuth;
            sum.by_dip += one.by_dip;
            sum.share += one.share;
        }
        return sum;
    }

    SourceEffect azimuth_effect(const ErrorSource& source, const StationEffect& sum) const {
        return {source, sum.by_azimuth, sum.share * Vector3d::UnitZ()};
    }
    SourceEffect dip_effect(const ErrorSource& source, const StationEffect& sum) const {
        return {source, sum.by_dip, sum.share * dip_axis_};
    }

    SourceEffect station_effect(const ErrorSource& source) const;
    SourceEffect survey_effect(const ErrorSource& source) const;
    SourceEffect deviation_effect(const ErrorSource& source) const;
    Vector3d core_turn(const Vector3d& axis) const;
    SourceEffect lift_effect(const ErrorSource& source, const Drift& drift) const;
    SourceEffect swing_effect(const ErrorSource& source, const Drift& drift) const;
    SourceEffect effect_of_source(const ErrorSource& source) const;
    const Vector3d& position() const { return position_; }

private:
    const Path& path_;
    double depth_;
    std::size_t above_ = 0;
    std::array<StationEffect, 2> beside_;  // of the stations above and below the point
    Vector3d tangent_, position_, steepening_axis_;
    Vector3d dip_axis_;  // by which the dips of stations turn the core
};

// A reading turns its own station, and the collar's direction where it was carried up to there.
SourceEffect PointOfPath::station_effect(const ErrorSource& source) const {
    const auto own = static_cast<std::size_t>(source.id.station);
    StationEffect sum = effect_of(own);
    if (own == 1 && path_.stations[0].measured_at == 1) {
        const StationEffect carried = effect_of(0);
        sum.by_azimuth += carried.by_azimuth;
        sum.by_dip += carried.by_dip;
        sum.share += carried.share;
    }
    return source.id.kind == SourceKind::azimuth_station ? azimuth_effect(source, sum) : dip_effect(source, sum);
}

SourceEffect PointOfPath::survey_effect(const ErrorSource& source) const {
    const std::vector<int>& methods = path_.methods;
    switch (source.id.kind) {
        case SourceKind::azimuth_common:
            return azimuth_effect(source, sum_over([&](const Station& station) {
                                      return station.azimuth_method >= 0 &&
                                             methods[static_cast<std::size_t>(station.azimuth_method)] == source.id.owner;
                                  }));
        case SourceKind::azimuth_hole:
            return azimuth_effect(source,
                                  sum_over([&](const Station& station) { return station.azimuth_method == source.id.station; }));
        default:
            return dip_effect(source, sum_over([&](const Station& station) { return station.dip_method == source.id.station; }));
    }
}

SourceEffect PointOfPath::deviation_effect(const ErrorSource& source) const {
    const Vector3d from_start = position_ - path_.stations.front().position;
    const double lift_run = std::max(0.0, depth_ - path_.lift_depth), swing_run = std::max(0.0, depth_ - path_.swing_depth);
    switch (source.id.kind) {
        case SourceKind::start_azimuth: return {source, Vector3d::UnitZ().cross(from_start), Vector3d::UnitZ()};
        case SourceKind::start_dip: {
            const Vector3d axis = steepening_axis(path_.stations.front().direction.azimuth);
            return {source, axis.cross(from_start), core_turn(axis)};
        }
        case SourceKind::lift_rate: return lift_effect(source, steady(lift_run));
        case SourceKind::lift_wander: return lift_effect(source, walked(lift_run));
        case SourceKind::swing_rate: return swing_effect(source, steady(swing_run));
        default: return swing_effect(source, walked(swing_run));
    }
}

// How the core turns as the hole turns about an axis: its high side stays uppermost, so it is tilted and turned about the
// vertical.
Vector3d PointOfPath::core_turn(const Vector3d& axis) const {
    const double dip_cosine = held_dip_cosine(std::hypot(tangent_.x(), tangent_.y()));
    return axis.dot(steepening_axis_) * steepening_axis_ +
           axis.cross(tangent_).dot(steepening_axis_) / dip_cosine * Vector3d::UnitZ();
}

SourceEffect PointOfPath::lift_effect(const ErrorSource& source, const Drift& drift) const {
    const Vector3d middle = direction_at(path_, depth_ - drift.middle_above);
    const Vector3d right = -steepening_axis_at(middle, path_.stations[above_]);
    return {source, drift.moved * right.cross(middle), -drift.turned * steepening_axis_};
}

// The core's own frame turns about the vertical by swing/cos(dip).
SourceEffect PointOfPath::swing_effect(const ErrorSource& source, const Drift& drift) const {
    const Vector3d middle = direction_at(path_, depth_ - drift.middle_above);
    const Vector3d right = -steepening_axis_at(middle, path_.stations[above_]);
    const double dip_cosine = held_dip_cosine(std::hypot(tangent_.x(), tangent_.y()));
    return {source, drift.moved * right, -drift.turned / dip_cosine * Vector3d::UnitZ()};
}

SourceEffect PointOfPath::effect_of_source(const ErrorSource& source) const {
    switch (source.id.kind) {
        case SourceKind::azimuth_station:
        case SourceKind::dip_station: return station_effect(source);
        case SourceKind::azimuth_common:
        case SourceKind::azimuth_hole:
        case SourceKind::dip_hole: return survey_effect(source);
        case SourceKind::depth_scale: return {source, position_ - path_.collar, Vector3d::Zero()};
        case SourceKind::collar_east: return {source, Vector3d::UnitX(), Vector3d::Zero()};
        case SourceKind::collar_north: return {source, Vector3d::UnitY(), Vector3d::Zero()};
        case SourceKind::collar_elevation: return {source, Vector3d::UnitZ(), Vector3d::Zero()};
        case SourceKind::start_azimuth:
        case SourceKind::start_dip:
        case SourceKind::lift_rate:
        case SourceKind::swing_rate:
        case SourceKind::lift_wander:
        case SourceKind::swing_wander:
        case SourceKind::core_turn:
        case SourceKind::fault_slip_east:
        case SourceKind::fault_slip_north:
        case SourceKind::fault_slip_elevation: break;
    }
    return deviation_effect(source);
}

bool is_of_station(SourceKind kind) { return kind == SourceKind::azimuth_station || kind == SourceKind::dip_station; }

// Both lists are in the order of SourceId; what they share (a method's common error) is summed.
std::vector<SourceEffect> merged(std::vector<SourceEffect> own, const Path& path, const Vector3d& position) {
    if (path.inherited.empty()) return own;
    const Vector3d below = position - path.stations.front().position;
    std::vector<SourceEffect> all;
    all.reserve(own.size() + path.inherited.size());
    auto next = own.begin();
    for (SourceEffect effect : path.inherited) {
        while (next != own.end() && next->source.id < effect.source.id) all.push_back(*next++);
        effect.displacement += effect.rotation.cross(below);
        if (next != own.end() && next->source.id == effect.source.id) {
            effect.displacement += next->displacement;
            effect.rotation += next->rotation;
            ++next;
        }
        all.push_back(effect);
    }
    all.insert(all.end(), next, own.end());
    return all;
}

}  // namespace

void settle(std::vector<Station>& stations) {
    for (std::size_t i = 0; i < stations.size(); ++i) {
        stations[i].tangent = base::unit_vector(stations[i].direction);
        stations[i].azimuth_lever = stations[i].dip_lever = Vector3d::Zero();
        if (i == 0) continue;
        assert(stations[i].depth > stations[i - 1].depth);
        const Arc arc = arc_of(stations[i - 1], stations[i]);
        stations[i].position = stations[i - 1].position + displacement_on(arc, 1.0);
        for (const std::size_t k : {i - 1, i}) {
            StationEffect change;
            add_change(change, arc, 1.0, stations[k], k != i);
            stations[k].azimuth_lever += change.by_azimuth;
            stations[k].dip_lever += change.by_dip;
        }
    }
}

std::vector<SourceEffect> effects_at(const Path& path, double depth) {
    const PointOfPath point(path, depth);
    std::vector<SourceEffect> effects;
    effects.reserve(path.sources.size());
    for (const ErrorSource& source : path.sources) {
        if (is_of_station(source.id.kind) && static_cast<std::size_t>(source.id.station) >= point.end()) continue;
        effects.push_back(point.effect_of_source(source));
    }
    return merged(std::move(effects), path, point.position());
}

Eigen::Matrix3d covariance_at(const Path& path, double depth) {
    Eigen::Matrix3d covariance = Eigen::Matrix3d::Zero();
    for (const SourceEffect& effect : effects_at(path, depth)) {
        const Vector3d one = effect.source.sd * effect.displacement;
        covariance += one * one.transpose();
    }
    return covariance;
}

Eigen::Matrix3d covariance_between(const Path& a, double depth_a, const Path& b, double depth_b) {
    const std::vector<SourceEffect> of_a = effects_at(a, depth_a), of_b = effects_at(b, depth_b);
    Eigen::Matrix3d covariance = Eigen::Matrix3d::Zero();
    auto next = of_b.begin();
    for (const SourceEffect& effect : of_a) {
        while (next != of_b.end() && next->source.id < effect.source.id) ++next;
        if (next == of_b.end()) break;
        if (next->source.id == effect.source.id)
            covariance += effect.source.sd * next->source.sd * effect.displacement * next->displacement.transpose();
    }
    return covariance;
}

}  // namespace selvage::paths
