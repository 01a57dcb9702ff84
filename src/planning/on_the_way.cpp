#include "planning/on_the_way.h"

#include "base/text.h"
#include "faults/faults_ahead.h"
#include "paths/locate.h"
#include "planning/told_by_neighbours.h"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <set>
#include <tuple>
#include <utility>

namespace selvage::planning {

namespace {

constexpr const char* open_void = "void";
constexpr double touching = 0.01;  // m between rows that follow on

void add_event(Surroundings& all, const std::string& what, const paths::Path* path, double from, double to) {
    if (path == nullptr) return;
    all.events.push_back({what, path->hole, paths::position_at(*path, std::max(from, path->start_depth)),
                          paths::position_at(*path, std::max(to, path->start_depth))});
}

// Rows of poor recovery that follow one another are one.
void add_lost_core(Surroundings& all, const tables::Records& records, const paths::PathIndex& index) {
    const tables::Recovery* open = nullptr;
    double to = 0.0;
    const auto close = [&] {
        if (open != nullptr) add_event(all, "core lost", index.find(open->hole), open->from, to);
        open = nullptr;
    };
    for (const tables::Recovery& row : records.recovery) {
        if (!row.recovery || *row.recovery >= poor_recovery) continue;
        if (open != nullptr && (open->hole != row.hole || std::abs(row.from - to) > touching)) close();
        if (open == nullptr) open = &row;
        to = row.to;
    }
    close();
}

void add_faults(std::vector<Danger>& dangers, const paths::Path& path, double from, double to, const Surroundings& all) {
    if (all.faults == nullptr) return;
    for (const faults::FaultAhead& fault : faults::faults_ahead(path, *all.faults, from, to))
        dangers.push_back({fault.name,
                           std::max(from, fault.depth_p10),
                           std::min(to, fault.depth_p90),
                           {},
                           {},
                           fault.crosses ? std::optional<double>(fault.depth) : std::nullopt});
}

void add_workings(std::vector<Danger>& dangers, const std::vector<PlaceOnHole>& places, const Surroundings& all) {
    if (all.workings == nullptr) return;
    std::vector<Eigen::Vector3d> line;
    line.reserve(places.size());
    for (const PlaceOnHole& place : places) line.push_back(place.point);
    for (const site::NearWorking& near : site::near_workings(*all.workings, line, told_within)) {
        const double first = places.front().depth;
        dangers.push_back(
            {"old working " + (*all.workings)[near.working].name, first + near.from, first + near.to, {}, near.nearest, {}});
    }
}

// Stretches of one thing that overlap. Two pieces of a fault that are both crossed are two dangers.
std::vector<Danger> joined(std::vector<Danger> dangers) {
    std::stable_sort(dangers.begin(), dangers.end(),
                     [](const Danger& a, const Danger& b) { return std::tie(a.what, a.from) < std::tie(b.what, b.from); });
    std::vector<Danger> all;
    for (Danger& danger : dangers) {
        if (all.empty() || all.back().what != danger.what || all.back().to < danger.from ||
            (all.back().likely && danger.likely)) {
            all.push_back(std::move(danger));
            continue;
        }
        Danger& open = all.back();
        open.to = std::max(open.to, danger.to);
        if (!open.likely) open.likely = danger.likely;
        if (danger.nearest) open.nearest = std::min(open.nearest.value_or(*danger.nearest), *danger.nearest);
    }
    return all;
}

}  // namespace

Surroundings surroundings(const tables::Records& records, const std::vector<paths::Path>& paths, const faults::Events& events,
                          const site::Workings& workings) {
    Surroundings all;
    all.faults = &events;
    all.workings = &workings;
    const paths::PathIndex index(paths);
    for (const tables::DrillingEvent& event : records.drilling)
        if (const std::string kind = base::folded(event.kind); kind != "bit change")
            add_event(all, kind, index.find(event.hole), event.depth, event.to.value_or(event.depth));
    for (const tables::Pick& pick : records.picks) {
        if (pick.state != tables::PickState::open_void && pick.state != tables::PickState::lost) continue;
        const bool is_void = pick.state == tables::PickState::open_void;
        add_event(all, is_void ? open_void : "core lost", index.find(pick.hole), pick.from, pick.to);
    }
    for (const tables::Structure& structure : records.structures)
        if (structure.kind.find("fault") != std::string::npos)
            add_event(all, "fault", index.find(structure.hole), structure.depth, structure.depth);
    add_lost_core(all, records, index);
    return all;
}

std::vector<Danger> on_the_way(const paths::Path& path, double from, double to, const Surroundings& surroundings) {
    if (!(to > from)) return {};
    const std::vector<PlaceOnHole> places = places_of(path, from, to);
    std::vector<Danger> dangers;
    add_faults(dangers, path, from, to, surroundings);
    add_workings(dangers, places, surroundings);
    dangers = joined(std::move(dangers));
    for (Danger& danger : told_by_neighbours(path, places, surroundings)) dangers.push_back(std::move(danger));
    std::stable_sort(dangers.begin(), dangers.end(), [](const Danger& a, const Danger& b) { return a.from < b.from; });
    return dangers;
}

namespace {

// What is modelled, then voids, then what else neighbours met.
int kind_of(const Danger& danger) { return danger.seen_in.empty() ? 0 : danger.what == open_void ? 1 : 2; }

}  // namespace

std::vector<std::size_t> by_telling(const std::vector<Danger>& dangers) {
    std::vector<std::size_t> ranked(dangers.size());
    std::iota(ranked.begin(), ranked.end(), std::size_t{0});
    const auto rank = [&](std::size_t i) { return std::pair(kind_of(dangers[i]), dangers[i].nearest.value_or(0.0)); };
    std::stable_sort(ranked.begin(), ranked.end(), [&](std::size_t a, std::size_t b) { return rank(a) < rank(b); });
    return ranked;
}

std::vector<Danger> most_telling(std::vector<Danger> dangers, std::size_t most) {
    std::set<std::size_t> kept;
    for (const std::size_t i : by_telling(dangers))
        if (kept.size() < most || kind_of(dangers[i]) < 2) kept.insert(i);
    std::vector<Danger> told;
    told.reserve(kept.size());
    for (const std::size_t i : kept) told.push_back(std::move(dangers[i]));
    return told;
}

}  // namespace selvage::planning
