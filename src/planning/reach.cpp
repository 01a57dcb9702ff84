#include "planning/reach.h"

#include "base/segment.h"
#include "base/text.h"
#include "planning/holes_passed.h"

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

// The straight hole from a collar.
Reach hole_from(const Eigen::Vector3d& collar, const tables::Pad* pad, const Eigen::Vector3d& place,
                const Eigen::Vector3d& normal, const ReachRules& rules) {
    const Eigen::Vector3d run = place - collar, down_hole = run.normalized();
    Reach reach;
    reach.pad = pad == nullptr ? "" : pad->pad;
    reach.collar = collar;
    reach.direction = base::direction_of(down_hole);
    reach.depth = run.norm();
    reach.length = reach.depth + rules.tail;
    reach.angle = base::Angle::radians(std::asin(std::min(1.0, std::abs(down_hole.dot(normal)))));
    reach.cost = reach.length * rules.rig.cost_per_length + (pad != nullptr ? pad->move_cost.value_or(0.0) : 0.0);
    return reach;
}

// The first of the limits of rig and pad that a hole does not keep.
enum class Limit { none, collar, length, flat, steep, azimuth, angle };

Limit first_not_kept(const Reach& reach, const tables::Pad* pad, const ReachRules& rules) {
    constexpr double rounding = 1e-9;  // degrees
    const Limits limits = limits_of(rules.rig, pad);
    const double dip = reach.direction.dip.degrees();
    if (reach.depth < 1.0) return Limit::collar;
    if (reach.length > limits.length_max) return Limit::length;
    if (dip < limits.dip_min.degrees() - rounding) return Limit::flat;
    if (dip > limits.dip_max.degrees() + rounding) return Limit::steep;
    if (pad != nullptr && !within_azimuths(*pad, reach.direction.azimuth)) return Limit::azimuth;
    return reach.angle.degrees() < rules.angle_min.degrees() ? Limit::angle : Limit::none;
}

double worth(const Reach& reach) { return reach.cost / reach.angle.sin(); }

// No point of a hole lies further than half a step from the nearest of its points.
bool may_come_near(const HolePoints& hole, const Eigen::Vector3d& from, const Eigen::Vector3d& to, double clearance) {
    if (base::distance_to_segment(hole.middle, from, to) > hole.radius + clearance) return false;
    return std::any_of(hole.points.begin(), hole.points.end(), [&](const Eigen::Vector3d& point) {
        return base::distance_to_segment(point, from, to) < clearance + hole_point_step / 2.0;
    });
}

bool keeps_clear_of_holes(const Reach& reach, const Eigen::Vector3d& end, const ReachRules& rules) {
    if (rules.holes == nullptr || rules.clearance <= 0.0) return true;
    const paths::Path path = straight_path(reach);
    return std::none_of(rules.holes->begin(), rules.holes->end(), [&](const HolePoints& hole) {
        return may_come_near(hole, reach.collar, end, rules.clearance) &&
               comes_too_near(path, 0.0, reach.length, rules.clearance, hole);
    });
}

// A pad may stand outside the property; what starts within it stays within.
bool keeps_within_property(const Reach& reach, const Eigen::Vector3d& end, const ReachRules& rules) {
    if (rules.property == nullptr) return true;
    const bool from_outside = !reach.pad.empty() && !rules.property->holds(reach.collar.head<2>());
    return from_outside ? rules.property->holds(end.head<2>())
                        : !rules.property->first_outside(reach.collar.head<2>(), end.head<2>());
}

bool keeps_clear_of_workings(const Reach& reach, const Eigen::Vector3d& end, const ReachRules& rules) {
    return rules.workings == nullptr || site::near_workings(*rules.workings, {reach.collar, end}, rules.clearance).empty();
}

Eigen::Vector3d end_of(const Reach& reach) { return reach.collar + reach.length * base::unit_vector(reach.direction); }

bool keeps_clear(const Reach& reach, const ReachRules& rules) {
    const Eigen::Vector3d end = end_of(reach);
    return keeps_clear_of_holes(reach, end, rules) && keeps_within_property(reach, end, rules) &&
           keeps_clear_of_workings(reach, end, rules);
}

// A hole from a pad, or from the ground where there is none.
void take_better(std::optional<Reach>& best, const Reach& other, const tables::Pad* pad, const ReachRules& rules) {
    if (first_not_kept(other, pad, rules) == Limit::none && (!best || worth(other) < worth(*best)) && keeps_clear(other, rules))
        best = other;
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
                take_better(best, hole_from(place + *distance * up_hole, nullptr, place, normal, rules), nullptr, rules);
        }
    return best;
}

std::string words_of(Limit limit, const Reach& reach) {
    switch (limit) {
        case Limit::collar: return "stands on the vein";
        case Limit::length: return "too far for the rig";
        case Limit::flat:
            if (reach.direction.dip.degrees() < 0.0) return "lies lower than the place";
            return "a hole would be too flat, at " + base::fixed(reach.direction.dip.degrees(), 0) + "°";
        case Limit::steep: return "a hole would be too steep, at " + base::fixed(reach.direction.dip.degrees(), 0) + "°";
        case Limit::azimuth: return "the azimuth is not the pad's";
        case Limit::angle: return "would meet the vein at " + base::fixed(reach.angle.degrees(), 0) + "° only";
        case Limit::none: break;
    }
    return {};
}

}  // namespace

std::optional<Reach> best_reach(const Eigen::Vector3d& place, const Eigen::Vector3d& normal, const ReachRules& rules) {
    std::optional<Reach> best;
    if (rules.pads != nullptr)
        for (const tables::Pad& pad : *rules.pads)
            take_better(best, hole_from(pad.position, &pad, place, normal, rules), &pad, rules);
    if (!best && rules.ground.is_known()) best = from_ground(place, normal, rules);
    return best;
}

std::string why_no_pad(const Eigen::Vector3d& place, const Eigen::Vector3d& normal, const ReachRules& rules) {
    if (rules.pads == nullptr || rules.pads->empty()) return {};
    const tables::Pad& pad =
        *std::min_element(rules.pads->begin(), rules.pads->end(), [&place](const tables::Pad& one, const tables::Pad& other) {
            return (one.position - place).squaredNorm() < (other.position - place).squaredNorm();
        });
    const Reach reach = hole_from(pad.position, &pad, place, normal, rules);
    const Eigen::Vector3d end = end_of(reach);
    std::string words = words_of(first_not_kept(reach, &pad, rules), reach);
    if (words.empty() && !keeps_clear_of_holes(reach, end, rules)) words = "would pass too near another hole";
    if (words.empty() && !keeps_within_property(reach, end, rules)) words = "would leave the property";
    if (words.empty() && !keeps_clear_of_workings(reach, end, rules)) words = "would pass too near an old working";
    return words.empty() ? words : pad.pad + ", the nearest: " + words;
}

}  // namespace selvage::planning
