#include "planning/reach.h"

#include "paths/locate.h"

#include <algorithm>
#include <cmath>

namespace selvage::planning {

namespace {

struct Limits {
    base::Angle dip_min, dip_max;
    double length_max = 0.0;
};

Limits limits_of(const settings::Rig& rig, const tables::Pad* pad) {
    Limits limits{rig.dip_min, rig.dip_max, rig.length_max};
    if (pad == nullptr) return limits;
    if (pad->dip_min && limits.dip_min < *pad->dip_min) limits.dip_min = *pad->dip_min;
    if (pad->dip_max && *pad->dip_max < limits.dip_max) limits.dip_max = *pad->dip_max;
    if (pad->length_max) limits.length_max = std::min(limits.length_max, *pad->length_max);
    return limits;
}

// From azimuth_min clockwise to azimuth_max.
bool within_azimuths(const tables::Pad& pad, base::Azimuth azimuth) {
    if (!pad.azimuth_min || !pad.azimuth_max) return true;
    const auto clockwise = [](double from, double to) { return std::fmod(to - from + 360.0, 360.0); };
    return clockwise(pad.azimuth_min->degrees(), azimuth.degrees()) <=
           clockwise(pad.azimuth_min->degrees(), pad.azimuth_max->degrees());
}

// The straight hole from a collar, where it keeps the limits.
std::optional<Reach> hole_from(const Eigen::Vector3d& collar, const tables::Pad* pad, const Eigen::Vector3d& place,
                               const Eigen::Vector3d& normal, const ReachRules& rules) {
    const Eigen::Vector3d run = place - collar;
    if (run.norm() < 1.0) return std::nullopt;
    const Eigen::Vector3d down_hole = run.normalized();
    const Limits limits = limits_of(rules.rig, pad);
    Reach reach;
    reach.pad = pad == nullptr ? "" : pad->pad;
    reach.collar = collar;
    reach.direction = base::direction_of(down_hole);
    reach.depth = run.norm();
    reach.length = reach.depth + rules.tail;
    reach.angle = base::Angle::radians(std::asin(std::min(1.0, std::abs(down_hole.dot(normal)))));
    reach.cost = reach.length * rules.rig.cost_per_length + (pad != nullptr ? pad->move_cost.value_or(0.0) : 0.0);
    constexpr double rounding = 1e-9;  // degrees
    const double dip = reach.direction.dip.degrees();
    const bool keeps = dip >= limits.dip_min.degrees() - rounding && dip <= limits.dip_max.degrees() + rounding &&
                       reach.length <= limits.length_max && reach.angle.degrees() >= rules.angle_min.degrees() &&
                       (pad == nullptr || within_azimuths(*pad, reach.direction.azimuth));
    return keeps ? std::optional<Reach>(reach) : std::nullopt;
}

double worth(const Reach& reach) { return reach.cost / reach.angle.sin(); }

double distance_to_run(const Eigen::Vector3d& point, const Eigen::Vector3d& from, const Eigen::Vector3d& to) {
    const Eigen::Vector3d run = to - from;
    const double share = std::clamp((point - from).dot(run) / run.squaredNorm(), 0.0, 1.0);
    return (point - from - share * run).norm();
}

// Holes of one pad start at one place: there only the lower half counts.
bool keeps_clear_of_holes(const Reach& reach, const Eigen::Vector3d& end, const ReachRules& rules) {
    if (rules.holes == nullptr || rules.clearance <= 0.0) return true;
    const Eigen::Vector3d half_way = (reach.collar + end) / 2.0;
    return std::none_of(rules.holes->begin(), rules.holes->end(), [&](const HolePoints& hole) {
        const Eigen::Vector3d from = (hole.points.front() - reach.collar).norm() < one_pad ? half_way : reach.collar;
        if (distance_to_run(hole.middle, from, end) > hole.radius + rules.clearance) return false;
        return std::any_of(hole.points.begin(), hole.points.end(),
                           [&](const Eigen::Vector3d& point) { return distance_to_run(point, from, end) < rules.clearance; });
    });
}

// A pad may stand outside the property; what starts within it stays within.
bool keeps_within_property(const Reach& reach, const Eigen::Vector3d& end, const ReachRules& rules) {
    if (rules.property == nullptr) return true;
    const bool from_outside = !reach.pad.empty() && !rules.property->holds(reach.collar.head<2>());
    return from_outside ? rules.property->holds(end.head<2>())
                        : !rules.property->first_outside(reach.collar.head<2>(), end.head<2>());
}

bool keeps_clear(const Reach& reach, const ReachRules& rules) {
    const Eigen::Vector3d end = reach.collar + reach.length * base::unit_vector(reach.direction);
    return keeps_clear_of_holes(reach, end, rules) && keeps_within_property(reach, end, rules) &&
           (rules.workings == nullptr || site::near_workings(*rules.workings, {reach.collar, end}, rules.clearance).empty());
}

void take_better(std::optional<Reach>& best, const std::optional<Reach>& other, const ReachRules& rules) {
    if (other && (!best || worth(*other) < worth(*best)) && keeps_clear(*other, rules)) best = other;
}

// Collars on the ground, square to the strike on either side, at every fifth of the dips that the rig can drill.
std::optional<Reach> from_ground(const Eigen::Vector3d& place, const Eigen::Vector3d& normal, const ReachRules& rules) {
    constexpr int steps = 10;
    const double level = normal.head<2>().norm();
    const Eigen::Vector2d across = level > 1e-6 ? Eigen::Vector2d(normal.head<2>() / level) : Eigen::Vector2d::UnitX();
    std::optional<Reach> best;
    for (const double side : {1.0, -1.0})
        for (int i = 0; i <= steps; ++i) {
            const base::Angle dip = base::Angle::degrees(rules.rig.dip_min.degrees() +
                                                         (rules.rig.dip_max.degrees() - rules.rig.dip_min.degrees()) * i / steps);
            const Eigen::Vector3d up_hole(side * across.x() * dip.cos(), side * across.y() * dip.cos(), dip.sin());
            if (const auto distance = rules.ground.distance_along(place, up_hole, rules.rig.length_max))
                take_better(best, hole_from(place + *distance * up_hole, nullptr, place, normal, rules), rules);
        }
    return best;
}

}  // namespace

std::vector<HolePoints> hole_points(const std::vector<paths::Path>& paths) {
    constexpr double step = 5.0;  // m
    std::vector<HolePoints> holes;
    for (const paths::Path& path : paths) {
        HolePoints hole;
        const int count = static_cast<int>(std::ceil((path.end_depth - path.start_depth) / step));
        for (int i = 0; i <= count; ++i)
            hole.points.push_back(paths::position_at(path, std::min(path.start_depth + i * step, path.end_depth)));
        hole.middle = (hole.points.front() + hole.points.back()) / 2.0;
        for (const Eigen::Vector3d& point : hole.points) hole.radius = std::max(hole.radius, (point - hole.middle).norm());
        holes.push_back(std::move(hole));
    }
    return holes;
}

std::optional<Reach> best_reach(const Eigen::Vector3d& place, const Eigen::Vector3d& normal, const ReachRules& rules) {
    std::optional<Reach> best;
    if (rules.pads != nullptr)
        for (const tables::Pad& pad : *rules.pads) take_better(best, hole_from(pad.position, &pad, place, normal, rules), rules);
    if (!best && rules.ground.is_known()) best = from_ground(place, normal, rules);
    return best;
}

}  // namespace selvage::planning
