#include "faults/blocks.h"
#include "faults/fault.h"
#include "faults/fault_checks.h"
#include "faults/fault_plane.h"

#include "base/text.h"
#include "paths/locate.h"

#include <fmt/format.h>
#include <Eigen/Geometry>

#include <algorithm>
#include <cmath>
#include <iterator>
#include <optional>
#include <set>
#include <utility>

namespace selvage::faults {

namespace {

constexpr double stated_point_sd = 5.0;  // m
constexpr double outcrop_sd = 5.0;       // m
constexpr double pick_sd = 0.5;          // m along the hole: a fault is a zone
constexpr double slip_sd_share = 0.1;    // of the slip's length, where no sd is given
constexpr double least_slip_sd = 0.5;    // m
const base::Angle stated_attitude_sd = base::Angle::degrees(5.0);
const base::Angle core_attitude_sd = base::Angle::degrees(10.0);  // of one pole of a fault's core or outcrop
constexpr int unused_quality = 4;                                 // printed, not used
constexpr double allowed_off_plane = 0.05;                        // of the slip's length
constexpr double far_off = 4.0;                                   // residuals of this many sds are named

struct Seen {
    PlaneDatum place;
    base::Origin origin;
    std::string hole;
};

struct Evidence {
    std::vector<Seen> places;
    std::vector<PoleDatum> poles;
};

void add_picks(Evidence& evidence, const std::string& name, const tables::Records& records, const paths::PathIndex& index) {
    std::set<std::string> picked;
    const auto add = [&](const base::Origin& origin, const std::string& hole, double from, double to) {
        const paths::Path* path = index.find(hole);
        if (path == nullptr || (from + to) / 2.0 < path->start_depth) return;
        const double depth = (from + to) / 2.0, along = pick_sd + (to - from) / std::sqrt(12.0);
        const Eigen::Vector3d hole_direction = paths::direction_at(*path, depth);
        evidence.places.push_back(
            {{paths::position_at(*path, depth),
              paths::covariance_at(*path, depth) + along * along * hole_direction * hole_direction.transpose()},
             origin,
             hole});
    };
    for (const tables::Pick& pick : records.picks) {
        picked.insert(pick.hole);
        if (pick.vein == name && pick.state != tables::PickState::absent && pick.certainty <= 2)
            add(pick.origin, pick.hole, pick.from, pick.to);
    }
    for (const tables::GeologyInterval& row : records.geology)
        if (row.vein == name && row.certainty <= 2 && picked.count(row.hole) == 0) add(row.origin, row.hole, row.from, row.to);
}

Evidence evidence_of(const settings::FaultSetting& setting, const tables::Records& records, const paths::PathIndex& index,
                     const std::vector<orientation::Orientation>& orientations) {
    Evidence evidence;
    const Eigen::Matrix3d by_point = std::pow(setting.point_sd.value_or(stated_point_sd), 2) * Eigen::Matrix3d::Identity();
    if (setting.point)
        evidence.places.push_back({{*setting.point - records.frame.origin, by_point}, {"project", "", setting.line}, ""});
    for (const Eigen::Vector3d& point : setting.trace)
        evidence.places.push_back({{point - records.frame.origin, by_point}, {"project", "", setting.line}, ""});
    add_picks(evidence, setting.name, records, index);
    for (const tables::Outcrop& outcrop : records.outcrops) {
        if (outcrop.vein != setting.name) continue;
        evidence.places.push_back(
            {{outcrop.position, outcrop_sd * outcrop_sd * Eigen::Matrix3d::Identity()}, outcrop.origin, ""});
        if (outcrop.attitude) evidence.poles.push_back({base::upward_normal(*outcrop.attitude), core_attitude_sd.radians()});
    }
    for (const orientation::Orientation& row : orientations)
        if (row.vein == setting.name && row.pole && row.quality < unused_quality)
            evidence.poles.push_back({*row.pole, core_attitude_sd.radians()});
    if (setting.dip && setting.dip_direction)
        evidence.poles.push_back({base::upward_normal({*setting.dip, *setting.dip_direction}),
                                  setting.attitude_sd.value_or(stated_attitude_sd).radians()});
    return evidence;
}

base::Finding about(const base::Check& check, const settings::FaultSetting& setting, std::string message) {
    return {&check, {"project", "", setting.line}, {}, std::move(message)};
}

void place(Fault& fault, const PlaneFit& fit, const Evidence& evidence, const settings::FaultSetting& setting) {
    fault.plane = fit.plane;
    // The hanging-wall side is the stated attitude's, also where the data make a steep fault lean the other way.
    if (setting.dip && setting.dip_direction &&
        fault.plane.normal.dot(base::upward_normal({*setting.dip, *setting.dip_direction})) < 0.0)
        fault.plane.normal = -fault.plane.normal;
    fault.first_axis = fit.first_axis;
    fault.second_axis = fit.second_axis;
    fault.covariance = fit.covariance;
    fault.data = evidence.places.size();
    double squares = 0.0;
    for (const Seen& seen : evidence.places) squares += std::pow(base::signed_distance(fault.plane, seen.place.point), 2);
    fault.residual_rms = std::sqrt(squares / static_cast<double>(evidence.places.size()));
}

void report_far_places(const Fault& fault, const Evidence& evidence, const base::MapFrame& frame,
                       std::vector<base::Finding>& findings) {
    for (const Seen& seen : evidence.places) {
        const double off = base::signed_distance(fault.plane, seen.place.point);
        const double sd = std::sqrt(std::pow(offset_sd(fault, seen.place.point), 2) + 4.0 +
                                    fault.plane.normal.dot(seen.place.covariance * fault.plane.normal));
        if (std::abs(off) < far_off * sd) continue;
        findings.push_back({&fault_off_its_plane, seen.origin, seen.hole,
                            fmt::format("fault {} was met {} {} off the plane that all its data make; it is kept", fault.name,
                                        base::fixed(frame.length(std::abs(off)), 1), base::symbol_of(frame.unit))});
    }
}

// Right-lateral: whoever looks at the hanging-wall side sees it move to the right; normal: it moves down the dip.
Eigen::Vector3d stated_slip(const settings::FaultSetting& setting, const base::Plane& plane) {
    if (setting.slip) return *setting.slip;
    const Eigen::Vector3d& normal = plane.normal;
    const Eigen::Vector3d right = normal.head<2>().norm() > 0.0
                                      ? Eigen::Vector3d(Eigen::Vector3d(normal.y(), -normal.x(), 0.0).normalized())
                                      : Eigen::Vector3d(Eigen::Vector3d::UnitX());
    const Eigen::Vector3d up_dip = normal.cross(right).z() > 0.0 ? normal.cross(right) : right.cross(normal);
    return setting.strike_slip.value_or(0.0) * right - setting.dip_slip.value_or(0.0) * up_dip;
}

// Longest side of what the collars span, m; nothing where there are fewer than two.
std::optional<double> ground_spanned(const tables::Records& records) {
    if (records.collars.size() < 2) return std::nullopt;
    Eigen::AlignedBox3d box;
    for (const tables::Collar& collar : records.collars) box.extend(collar.position);
    constexpr double least = 500.0;  // m: few collars on one pad tell little of the ground
    return std::max(least, box.diagonal().norm());
}

void add_slip(Fault& fault, const settings::FaultSetting& setting, const tables::Records& records,
              std::vector<base::Finding>& findings) {
    const base::MapFrame& frame = records.frame;
    fault.slip_given = setting.slip || setting.strike_slip || setting.dip_slip;
    if (!fault.slip_given) return;
    const Eigen::Vector3d stated = stated_slip(setting, fault.plane);
    const std::optional<double> spanned = ground_spanned(records);
    if (spanned && stated.norm() > *spanned) {
        fault.slip_given = false;
        findings.push_back(
            about(slip_out_of_reach, setting,
                  fmt::format("the slip of fault {} is {} {}, longer than the ground that the collars span ({} {}): it "
                              "cuts, and moves nothing",
                              fault.name, base::fixed(frame.length(stated.norm()), 0), base::symbol_of(frame.unit),
                              base::fixed(frame.length(*spanned), 0), base::symbol_of(frame.unit))));
        return;
    }
    const double off = fault.plane.normal.dot(stated);
    fault.slip = stated - off * fault.plane.normal;
    fault.slip_sd = setting.slip_sd.value_or(std::max(least_slip_sd, slip_sd_share * fault.slip.norm()));
    if (std::abs(off) <= allowed_off_plane * stated.norm()) return;
    findings.push_back(
        about(slip_off_the_plane, setting,
              fmt::format("the slip of fault {} leaves its plane by {} of {} {}; the part within the plane is used", fault.name,
                          base::fixed(frame.length(std::abs(off)), 1), base::fixed(frame.length(stated.norm()), 1),
                          base::symbol_of(frame.unit))));
}

// Places as they were before younger faults moved them, known so much the less.
void take_back(Evidence& evidence, const std::vector<Fault>& younger) {
    for (Seen& seen : evidence.places) {
        const Restored before = restored(younger, seen.place.point);
        seen.place.point = before.point;
        for (std::size_t f = 0; f < younger.size(); ++f)
            if (before.hanging[f]) seen.place.covariance += std::pow(younger[f].slip_sd, 2) * Eigen::Matrix3d::Identity();
    }
}

// Nothing where nothing tells where it lies.
std::optional<Fault> fault_through(const Evidence& evidence, const settings::FaultSetting& setting, const base::MapFrame& frame,
                                   std::vector<base::Finding>& findings) {
    std::vector<PlaneDatum> places;
    for (const Seen& seen : evidence.places) places.push_back(seen.place);
    const auto fit = fit_fault_plane(places, evidence.poles);
    if (!fit) {
        findings.push_back(about(fault_attitude_unknown, setting,
                                 "nothing tells where fault " + setting.name + " lies and dips; it is left out"));
        return std::nullopt;
    }
    Fault fault;
    fault.name = setting.name;
    place(fault, *fit, evidence, setting);
    report_far_places(fault, evidence, frame, findings);
    return fault;
}

bool is_named(const std::vector<std::string>& order, const std::string& name) {
    return std::find(order.begin(), order.end(), name) != order.end();
}

// What the order leaves open, where there is anything to cut.
void report_order(const Events& events, const std::vector<std::string>& veins, std::vector<base::Finding>& findings) {
    if (events.faults.empty() || veins.empty()) return;
    std::string missing;
    for (const Fault& fault : events.faults)
        if (!is_named(events.order, fault.name)) missing += (missing.empty() ? "fault " : ", fault ") + fault.name;
    for (const std::string& vein : veins)
        if (!is_named(events.order, vein)) missing += (missing.empty() ? "vein " : ", vein ") + vein;
    if (missing.empty()) return;
    findings.push_back({&event_without_order,
                        {"project", "", 0},
                        {},
                        "`order` does not name " + missing + ": what it does not name cuts nothing and is cut by nothing"});
}

}  // namespace

double offset_sd(const Fault& fault, const Eigen::Vector3d& point) {
    const Eigen::Vector3d off = point - fault.plane.point;
    const Eigen::Vector3d row(1.0, -fault.first_axis.dot(off), -fault.second_axis.dot(off));
    return std::sqrt(std::max(0.0, row.dot(fault.covariance * row)));
}

double offset_sd(const Fault& fault, const Shift& moved, const Eigen::Vector3d& point) {
    return std::hypot(offset_sd(fault, point - moved.by), std::sqrt(moved.variance));
}

bool Events::is_fault(const std::string& name) const { return std::find(names.begin(), names.end(), name) != names.end(); }

bool Events::is_older(const std::string& one, const std::string& other) const {
    const auto place = std::find(order.begin(), order.end(), one);
    return place != order.end() && std::find(place + 1, order.end(), other) != order.end();
}

std::vector<Fault> Events::younger_than(const std::string& event) const {
    std::vector<Fault> younger;
    std::copy_if(faults.begin(), faults.end(), std::back_inserter(younger),
                 [&](const Fault& fault) { return is_older(event, fault.name); });
    return younger;
}

base::Checked<Events> model_faults(const std::vector<settings::FaultSetting>& faults, const std::vector<std::string>& order,
                                   const std::vector<std::string>& veins, const tables::Records& records,
                                   const std::vector<paths::Path>& paths,
                                   const std::vector<orientation::Orientation>& orientations) {
    base::Checked<Events> events;
    events.value.order = order;
    const auto when = [&](const std::string& name) { return std::find(order.begin(), order.end(), name) - order.begin(); };
    // The youngest first: what they moved is taken back before an older one is laid through it.
    std::vector<std::size_t> numbers(faults.size());
    for (std::size_t number = 0; number < faults.size(); ++number) {
        numbers[number] = number;
        events.value.names.push_back(faults[number].name);
    }
    std::stable_sort(numbers.begin(), numbers.end(),
                     [&](std::size_t a, std::size_t b) { return when(faults[a].name) > when(faults[b].name); });
    const paths::PathIndex index(paths);
    for (const std::size_t number : numbers) {
        const settings::FaultSetting& setting = faults[number];
        Evidence evidence = evidence_of(setting, records, index, orientations);
        take_back(evidence, events.value.younger_than(setting.name));
        std::optional<Fault> fault = fault_through(evidence, setting, records.frame, events.findings);
        if (!fault) continue;
        fault->number = number;
        add_slip(*fault, setting, records, events.findings);
        events.value.faults.push_back(std::move(*fault));
        std::sort(events.value.faults.begin(), events.value.faults.end(), [&](const Fault& a, const Fault& b) {
            return std::pair(when(a.name), a.number) < std::pair(when(b.name), b.number);
        });
    }
    report_order(events.value, veins, events.findings);
    return events;
}

}  // namespace selvage::faults
