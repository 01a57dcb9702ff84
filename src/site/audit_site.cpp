#include "base/text.h"
#include "numerics/median.h"
#include "paths/locate.h"
#include "site/map_file.h"
#include "site/site.h"
#include "site/site_checks.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace selvage::site {

namespace {

constexpr double off_ground = 5.0;   // m between ground and what should stand on it
constexpr double path_step = 5.0;    // m along a hole
constexpr std::size_t lattice = 25;  // places each way, where the topography is looked at for gaps

using Findings = std::vector<base::Finding>;

struct Audit {
    const Site& site;
    const tables::Records& records;
    const std::vector<paths::Path>& paths;
    const settings::Project& project;
    Findings findings;

    const base::MapFrame& frame() const { return records.frame; }
    void add(const base::Check& check, base::Origin origin, const std::string& hole, std::string message) {
        findings.push_back({&check, std::move(origin), hole, std::move(message)});
    }
    base::Origin topography() const { return {"topography", project.site.topography.source, 0}; }
    base::Origin property() const { return {"property", project.site.property.source, 0}; }
};

std::vector<Eigen::Vector3d> points_along(const paths::Path& path, double from) {
    std::vector<Eigen::Vector3d> points;
    const double start = std::max(from, path.start_depth);
    const int count = static_cast<int>(std::ceil((path.end_depth - start) / path_step));
    for (int i = 0; i <= count; ++i) points.push_back(paths::position_at(path, std::min(start + i * path_step, path.end_depth)));
    return points;
}

// How far the topography reaches: collars, outcrops and the ends of holes, and a lattice over the box that they cover.
void audit_reach(Audit& audit) {
    const Relief& relief = *audit.site.ground.given();
    std::vector<Eigen::Vector2d> places;
    for (const tables::Collar& collar : audit.records.collars) places.push_back(collar.position.head<2>());
    for (const tables::Outcrop& outcrop : audit.records.outcrops) places.push_back(outcrop.position.head<2>());
    for (const paths::Path& path : audit.paths) places.push_back(paths::position_at(path, path.end_depth).head<2>());
    if (places.empty()) return;
    const auto beyond = std::count_if(places.begin(), places.end(), [&](const Eigen::Vector2d& place) {
        return coverage_at(relief, place) == Coverage::beyond;
    });
    if (beyond > 0)
        audit.add(topography_too_small, audit.topography(), "",
                  std::to_string(beyond) + " of " + std::to_string(places.size()) +
                      " collars, outcrops and ends of holes lie beyond it: there the ground is a plane");
    Eigen::Vector2d low = places.front(), high = low;
    for (const Eigen::Vector2d& place : places) {
        low = low.cwiseMin(place);
        high = high.cwiseMax(place);
    }
    std::size_t gaps = 0;
    std::optional<Eigen::Vector2d> first;
    for (std::size_t row = 0; row < lattice; ++row)
        for (std::size_t column = 0; column < lattice; ++column) {
            const Eigen::Vector2d share = (Eigen::Vector2d(static_cast<double>(column), static_cast<double>(row)).array() + 0.5) /
                                          static_cast<double>(lattice);
            const Eigen::Vector2d place = low + share.cwiseProduct(high - low);
            if (coverage_at(relief, place) != Coverage::hole) continue;
            ++gaps;
            if (!first) first = place;
        }
    if (first)
        audit.add(topography_has_holes, audit.topography(), "",
                  "it has no data over " + base::fixed(100.0 * static_cast<double>(gaps) / (lattice * lattice), 0) +
                      " % of the ground among the holes, as at " + place_words(*first, audit.frame()) +
                      ": there the ground is a plane");
}

struct Standing {
    const base::Origin* origin;
    std::string hole, what;
    double off;  // m, above positive
};

std::string off_words(double off, const base::MapFrame& frame) {
    return length_words(std::abs(off), frame) + (off > 0.0 ? " above" : " below");
}

void audit_standing(Audit& audit) {
    const Ground& ground = audit.site.ground;
    std::vector<Standing> all;
    std::vector<double> offs;
    const auto stand = [&](const base::Origin& origin, const std::string& hole, const char* what, const Eigen::Vector3d& at) {
        if (!ground.is_given_at(at.head<2>())) return;
        all.push_back({&origin, hole, what, at.z() - *ground.elevation_at(at.head<2>())});
    };
    for (const tables::Collar& collar : audit.records.collars)
        if ((tables::is_drill_hole(collar.type) || collar.type == tables::HoleType::trench) && !collar.parent)
            stand(collar.origin, collar.hole, "its collar", collar.position);
    offs.reserve(all.size());
    for (const Standing& one : all) offs.push_back(one.off);
    for (const tables::Outcrop& outcrop : audit.records.outcrops) stand(outcrop.origin, "", "the outcrop", outcrop.position);
    constexpr std::size_t enough = 3;  // collars to tell the topography's own error from theirs
    if (const double middle = offs.empty() ? 0.0 : numerics::median(offs); offs.size() >= enough && std::abs(middle) > off_ground)
        return audit.add(topography_off_collars, audit.topography(), "",
                         "half of the " + std::to_string(offs.size()) + " collars or more stand " +
                             off_words(middle, audit.frame()) + " it or farther: its length unit or height datum may be another");
    for (const Standing& one : all)
        if (std::abs(one.off) > off_ground)
            audit.add(off_the_ground, *one.origin, one.hole,
                      one.what + " stands " + off_words(one.off, audit.frame()) + " the topography; it is kept");
}

void audit_picks(Audit& audit) {
    for (const tables::Pick& pick : audit.records.picks) {
        const paths::Path* path = paths::path_of(audit.paths, pick.hole);
        if (path == nullptr) continue;
        const Eigen::Vector3d at = paths::position_at(*path, std::max(pick.from, path->start_depth));
        if (!audit.site.ground.is_given_at(at.head<2>())) continue;
        const double off = at.z() - *audit.site.ground.elevation_at(at.head<2>());
        if (off > off_ground)
            audit.add(pick_above_ground, pick.origin, pick.hole,
                      "its pick of " + pick.vein + " at " + length_words(pick.from, audit.frame()) + " lies " +
                          off_words(off, audit.frame()) + " the topography; it is kept");
    }
}

void audit_property(Audit& audit) {
    const Property& property = *audit.site.property;
    const auto holds = [&](const Eigen::Vector3d& at) { return property.holds(at.head<2>()); };
    const bool any = std::any_of(audit.records.collars.begin(), audit.records.collars.end(),
                                 [&](const tables::Collar& collar) { return holds(collar.position); });
    if (!any) return audit.add(property_without_holes, audit.property(), "", "no collar lies within it");
    const auto outside_by = [&](const Eigen::Vector3d& at) {
        return length_words(-property.inside_by(at.head<2>()), audit.frame(), 0) + " outside the property";
    };
    for (const tables::Pad& pad : audit.records.pads)
        if (!holds(pad.position))
            audit.add(outside_property, pad.origin, "", "pad " + pad.pad + " lies " + outside_by(pad.position));
    for (const paths::Path& path : audit.paths) {
        if (tables::is_drilled(path.status) || path.status == tables::HoleStatus::cancelled) continue;
        const tables::Collar& collar = audit.records.collars[path.number];
        if (collar.target && collar.target->point && !holds(*collar.target->point))
            audit.add(outside_property, collar.origin, path.hole, "its target lies " + outside_by(*collar.target->point));
        const std::vector<Eigen::Vector3d> points = points_along(path, path.start_depth);
        const auto left = std::find_if_not(points.begin(), points.end(), holds);
        if (left == points.end()) continue;
        const double depth = std::min(path.end_depth, path.start_depth + path_step * static_cast<double>(left - points.begin()));
        audit.add(outside_property, collar.origin, path.hole,
                  left == points.begin() ? "it starts " + outside_by(*left)
                                         : "it leaves the property at about " + length_words(depth, audit.frame(), 0));
    }
}

std::string workings_name(const Working& working) {
    return working.name.empty() ? "old workings" : "old workings \"" + working.name + "\"";
}

// Stretches over or under an outline of which nobody knows the elevation.
void audit_unknown_depths(Audit& audit, const paths::Path& path, double from, const std::vector<Eigen::Vector3d>& points) {
    for (const Working& working : audit.site.workings) {
        if (working.solid != nullptr) continue;
        const auto near = [&](const Eigen::Vector3d& at) {
            return inside_of_rings(working.outline, at.head<2>()) >= -audit.project.plan.clearance;
        };
        const auto first = std::find_if(points.begin(), points.end(), near);
        if (first == points.end()) continue;
        const auto last = std::find_if(points.rbegin(), points.rend(), near);
        const auto depth = [&](std::ptrdiff_t i) {
            return length_words(std::min(path.end_depth, from + path_step * static_cast<double>(i)), audit.frame(), 0);
        };
        audit.add(near_old_workings, audit.records.collars[path.number].origin, path.hole,
                  "it passes over or under the outline of " + workings_name(working) + " between " +
                      depth(first - points.begin()) + " and " + depth(points.rend() - last - 1) +
                      ": at what elevation they are is not known");
    }
}

void audit_workings(Audit& audit) {
    const double clearance = audit.project.plan.clearance;
    for (const paths::Path& path : audit.paths) {
        if (tables::is_drilled(path.status) || path.status == tables::HoleStatus::cancelled) continue;
        const double from = std::max(path.start_depth, path.drilled_depth);
        const std::vector<Eigen::Vector3d> points = points_along(path, from);
        for (const NearWorking& near : near_workings(audit.site.workings, points, clearance)) {
            const std::string nearest =
                near.nearest > 0.0 ? "as near as " + length_words(near.nearest, audit.frame()) : "into them";
            audit.add(near_old_workings, audit.records.collars[path.number].origin, path.hole,
                      "it comes within " + length_words(clearance, audit.frame()) + " of " +
                          workings_name(audit.site.workings[near.working]) + " between " +
                          length_words(from + near.from, audit.frame(), 0) + " and " +
                          length_words(from + near.to, audit.frame(), 0) + ", " + nearest);
        }
        audit_unknown_depths(audit, path, from, points);
    }
}

}  // namespace

std::vector<base::Finding> audit_site(const Site& site, const tables::Records& records, const std::vector<paths::Path>& paths,
                                      const settings::Project& project) {
    Audit audit{site, records, paths, project, {}};
    if (site.ground.has_given()) {
        audit_reach(audit);
        audit_standing(audit);
        audit_picks(audit);
    }
    if (site.property) audit_property(audit);
    if (!site.workings.empty()) audit_workings(audit);
    return std::move(audit.findings);
}

}  // namespace selvage::site
