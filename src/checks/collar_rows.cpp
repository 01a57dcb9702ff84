#include "checks/collar_rows.h"

#include "base/text.h"
#include "checks/record_checks.h"
#include "numerics/median.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numeric>
#include <set>
#include <tuple>
#include <utility>

namespace selvage::checks {

namespace {

using tables::Collar;

// A project that a person drills on foot is smaller than this, and a mistyped figure of a map coordinate lands further away.
constexpr double least_reach = 10000.0;    // m
constexpr double reach_in_medians = 20.0;  // times the median distance of the collars from their middle
constexpr double apart = 2000.0;           // m from the next collar
constexpr double apart_in_medians = 10.0;
constexpr double elevation_step = 500.0;  // m to the next collar's elevation
constexpr double same_collar = 1.0;       // m, between a daughter and its parent
constexpr double same_depth = 0.05;       // m

bool same(const Collar& a, const Collar& b) {
    const auto degrees = [](const auto& angle) { return angle ? angle->degrees() : -1000.0; };
    const auto target = [](const Collar& c) {
        const tables::Target t = c.target.value_or(tables::Target());
        const Eigen::Vector3d point = t.point.value_or(Eigen::Vector3d::Zero());
        return std::make_tuple(t.name, t.vein, point.x(), point.y(), point.z(), t.radius);
    };
    const auto key = [&](const Collar& c) {
        return std::make_tuple(c.position.x(), c.position.y(), c.position.z(), c.depth, degrees(c.azimuth), degrees(c.dip),
                               c.status, c.type, base::folded(c.core_size), c.campaign, c.date, c.date_started, c.date_finished);
    };
    const auto rest = [&](const Collar& c) {
        return std::make_tuple(base::folded(c.parent.value_or("")), c.kickoff, c.collar_sd, c.elevation_sd, c.drilled,
                               c.collar_method, c.planned_as, target(c));
    };
    return key(a) == key(b) && rest(a) == rest(b);
}

bool told_apart_by_campaign(const std::vector<const Collar*>& rows) {
    std::set<std::string> campaigns;
    for (const Collar* row : rows)
        if (row->campaign.empty() || !campaigns.insert(base::folded(row->campaign)).second) return false;
    return true;
}

// Rows of each name, the names in the order of their first rows.
std::vector<std::vector<const Collar*>> by_name(const std::vector<Collar>& collars) {
    std::vector<std::vector<const Collar*>> groups;
    std::map<std::string, std::size_t> group_of;
    for (const Collar& collar : collars) {
        const auto [found, is_new] = group_of.emplace(base::folded(collar.hole), groups.size());
        if (is_new) groups.emplace_back();
        groups[found->second].push_back(&collar);
    }
    return groups;
}

void take_name(const std::vector<const Collar*>& rows, UsableCollars& usable, Checking& checking) {
    std::vector<const Collar*> different;
    for (const Collar* row : rows) {
        const auto twin =
            std::find_if(different.begin(), different.end(), [&](const Collar* other) { return same(*other, *row); });
        if (twin == different.end())
            different.push_back(row);
        else
            checking.report(collar_twice, row->origin, row->hole,
                            fmt::format("the row is that of row {}: used once", (*twin)->origin.row));
    }
    if (different.size() == 1) {
        usable.collars.push_back(*different.front());
        return;
    }
    const std::string folded = base::folded(rows.front()->hole);
    if (told_apart_by_campaign(different)) {
        usable.gone.emplace(folded, Gone::ambiguous);
        for (const Collar* row : different) {
            usable.collars.push_back(*row);
            usable.collars.back().hole = fmt::format("{} ({})", row->hole, row->campaign);
        }
        return;
    }
    usable.gone.emplace(folded, Gone::left_out);
    for (const Collar* row : different) {
        usable.left_out.push_back(*row);
        std::vector<std::size_t> others;
        for (const Collar* other : different)
            if (other != row) others.push_back(other->origin.row);
        checking.report(collars_differ, row->origin, row->hole,
                        fmt::format("the row differs from that of row {}: the hole is left out", fmt::join(others, ", ")));
    }
}

// Leaves out every collar for which `reason` gives a finding's check and text.
template <typename Reason>
void leave_out(UsableCollars& usable, Checking& checking, Reason reason) {
    std::vector<Collar> kept;
    for (Collar& collar : usable.collars) {
        const std::pair<const base::Check*, std::string> why = reason(collar);
        if (why.first == nullptr) {
            kept.push_back(std::move(collar));
            continue;
        }
        checking.report(*why.first, collar.origin, collar.hole, why.second + ": the hole is left out");
        usable.gone.emplace(base::folded(collar.hole), Gone::left_out);
        usable.left_out.push_back(std::move(collar));
    }
    usable.collars = std::move(kept);
}

using Why = std::pair<const base::Check*, std::string>;

// Walks up from a daughter; true where it comes back to it.
bool is_own_ancestor(const Collar& daughter, const Holes& holes) {
    const Collar* at = &daughter;
    for (std::size_t steps = 0; steps <= holes.count(); ++steps) {
        if (!at->parent) return false;
        const std::size_t parent = holes.number_of(*at->parent);
        if (parent == Holes::none) return false;
        at = &holes.collar(parent);
        if (at == &daughter) return true;
    }
    return false;  // below a cycle, not in it
}

Why kickoff_problem(const Collar& daughter, std::size_t parent_number, const Holes& holes, const Checking& checking) {
    if (!daughter.kickoff) return {&kickoff_missing, "no kick-off depth"};
    const Collar& parent = holes.collar(parent_number);
    const double kickoff = *daughter.kickoff;
    const std::string at = "kick-off at " + checking.length(kickoff);
    if (kickoff > holes.end_of(parent_number) + same_depth)
        return {&kickoff_out_of_reach,
                fmt::format("{}, but {} ends at {}", at, parent.hole, checking.length(holes.end_of(parent_number)))};
    if (kickoff >= daughter.depth)
        return {&kickoff_out_of_reach, fmt::format("{}, but it ends at {}", at, checking.length(daughter.depth))};
    if (parent.parent && parent.kickoff && kickoff < *parent.kickoff - same_depth)
        return {&kickoff_out_of_reach,
                fmt::format("{}, above that of {} at {}", at, parent.hole, checking.length(*parent.kickoff))};
    return {};
}

// Daughters whose family does not hold; repeated, since each may be somebody's parent.
void leave_out_orphans(UsableCollars& usable, Checking& checking) {
    for (std::size_t before = usable.collars.size() + 1; before != usable.collars.size();) {
        before = usable.collars.size();
        const std::vector<Collar> all = usable.collars;
        const Holes holes(all);
        std::size_t i = 0;
        leave_out(usable, checking, [&](const Collar&) -> Why {
            const Collar& daughter = all[i++];
            if (!daughter.parent) return {};
            if (is_own_ancestor(daughter, holes)) return {&parent_cycle, "it is its own ancestor by " + *daughter.parent};
            const std::size_t parent = holes.number_of(*daughter.parent);
            if (parent != Holes::none) return kickoff_problem(daughter, parent, holes, checking);
            const bool known = usable.gone.count(base::folded(*daughter.parent)) > 0;
            return {&parent_unknown, fmt::format("its parent {} {}", *daughter.parent, known ? "is left out" : "has no collar")};
        });
    }
}

void settle_family(std::vector<Collar>& collars, Checking& checking) {
    const std::vector<Collar> all = collars;
    const Holes holes(all);
    for (Collar& collar : collars) {
        if (!collar.parent) {
            if (collar.kickoff)
                checking.report(
                    kickoff_without_parent, collar.origin, collar.hole,
                    fmt::format("kick-off at {} and no parent: it starts at its collar", checking.length(*collar.kickoff)));
            collar.kickoff.reset();
            continue;
        }
        const Collar& parent = holes.collar(holes.number_of(*collar.parent));
        collar.parent = parent.hole;
        const double distance = (collar.position - parent.position).norm();
        if (distance > same_collar)
            checking.report(collar_off_parent, collar.origin, collar.hole,
                            fmt::format("its collar is {} from that of its parent {}: the parent's is used",
                                        checking.length(distance), parent.hole));
        collar.position = parent.position;
    }
}

// Distance of each collar to the nearest other, by `distance`, which is nowhere less than the difference of `key`.
template <typename Key, typename Distance>
std::vector<double> to_nearest(const std::vector<Collar>& collars, Key key, Distance distance) {
    std::vector<std::size_t> order(collars.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) { return key(collars[a]) < key(collars[b]); });
    std::vector<double> nearest(collars.size(), INFINITY);
    for (std::size_t i = 0; i < order.size(); ++i)
        for (std::size_t j = i + 1; j < order.size(); ++j) {
            const Collar& low = collars[order[i]];
            const Collar& high = collars[order[j]];
            if (key(high) - key(low) > nearest[order[i]] && key(high) - key(low) > apart) break;
            const double between = distance(low, high);
            nearest[order[i]] = std::min(nearest[order[i]], between);
            nearest[order[j]] = std::min(nearest[order[j]], between);
        }
    return nearest;
}

void check_places(const std::vector<Collar>& collars, Checking& checking) {
    if (collars.size() < 3) return;
    const std::vector<double> flat = to_nearest(
        collars, [](const Collar& c) { return c.position.x(); },
        [](const Collar& a, const Collar& b) { return (a.position - b.position).head<2>().norm(); });
    const std::vector<double> up = to_nearest(
        collars, [](const Collar& c) { return c.position.z(); },
        [](const Collar& a, const Collar& b) { return std::abs(a.position.z() - b.position.z()); });
    const double usual = numerics::median(flat);
    for (std::size_t i = 0; i < collars.size(); ++i) {
        if (flat[i] > std::max(apart, apart_in_medians * usual))
            checking.report(collar_apart, collars[i].origin, collars[i].hole,
                            fmt::format("its collar is {} from the nearest other", checking.length(flat[i])));
        if (up[i] > elevation_step)
            checking.report(elevation_apart, collars[i].origin, collars[i].hole,
                            fmt::format("its collar is {} above or below every other", checking.length(up[i])));
    }
}

// A hole that deviates is a little longer than the straight line, and turns.
constexpr double short_by = 0.02;  // share of the distance
constexpr double off_line = 30.0;  // degrees

void check_target(const Collar& collar, Checking& checking) {
    if (!collar.target || !collar.target->point) return;
    const Eigen::Vector3d line = *collar.target->point - collar.position;
    const double distance = line.norm();
    if (distance * (1.0 - short_by) > collar.depth)
        checking.report(target_out_of_reach, collar.origin, collar.hole,
                        fmt::format("its target is {} from the collar, its depth {}", checking.length(distance),
                                    checking.length(collar.depth)));
    if (!collar.azimuth || !collar.dip || collar.parent || distance < 1.0) return;
    const double cosine = base::unit_vector({*collar.azimuth, *collar.dip}).dot(line) / distance;
    const double angle = base::Angle::radians(std::acos(std::clamp(cosine, -1.0, 1.0))).degrees();
    if (angle > off_line)
        checking.report(target_off_line, collar.origin, collar.hole,
                        fmt::format("its planned start points {} degrees away from its target", base::fixed(angle, 0)));
}

}  // namespace

Neighbourhood neighbourhood_of(const std::vector<Collar>& collars) {
    if (collars.size() < 3) return {};
    std::vector<double> east, north, distance;
    for (const Collar& collar : collars) {
        east.push_back(collar.position.x());
        north.push_back(collar.position.y());
    }
    const Eigen::Vector2d middle(numerics::median(east), numerics::median(north));
    for (const Collar& collar : collars) distance.push_back((collar.position.head<2>() - middle).norm());
    return {middle, std::max(least_reach, reach_in_medians * numerics::median(distance)), true};
}

std::string far_away(const Eigen::Vector3d& point, const Neighbourhood& around, const base::MapFrame& frame) {
    const double kilometres = (point.head<2>() - around.middle).norm() / 1000.0;
    const Eigen::Vector3d map = point + frame.origin;
    const Eigen::Vector3d swapped = Eigen::Vector3d(map.y(), map.x(), map.z()) - frame.origin;
    return fmt::format("it lies {} km from the middle of the collars{}", base::fixed(kilometres, 1),
                       around.holds(swapped) ? "; with east and north swapped it would be among them" : "");
}

UsableCollars usable_collars(std::vector<Collar> collars, Checking& checking) {
    UsableCollars usable;
    for (const std::vector<const Collar*>& rows : by_name(collars)) take_name(rows, usable, checking);
    leave_out(usable, checking, [](const Collar& collar) -> Why {
        return collar.depth > 0.0 ? Why() : Why{&hole_without_length, "its depth is zero"};
    });
    const Neighbourhood around = neighbourhood_of(usable.collars);
    leave_out(usable, checking, [&](const Collar& collar) -> Why {
        return around.holds(collar.position) ? Why() : Why{&place_far_away, far_away(collar.position, around, checking.frame)};
    });
    leave_out_orphans(usable, checking);
    settle_family(usable.collars, checking);
    return usable;
}

void check_collars(const std::vector<Collar>& collars, Checking& checking) {
    check_places(collars, checking);
    for (const Collar& collar : collars) {
        check_target(collar, checking);
        if (!collar.date_started.empty() && !collar.date_finished.empty() && collar.date_finished < collar.date_started)
            checking.report(dates_out_of_order, collar.origin, collar.hole,
                            fmt::format("finished on {}, started on {}", collar.date_finished, collar.date_started));
    }
}

}  // namespace selvage::checks
