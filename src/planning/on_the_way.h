#pragma once

#include "faults/fault.h"
#include "paths/path.h"
#include "site/workings.h"
#include "tables/records.h"

#include <optional>
#include <string>
#include <vector>

// What a hole may meet on its way besides veins, as faults, old workings and neighbouring holes tell.
namespace selvage::planning {

// Something that is expected between two depths.
struct Danger {
    std::string what;                  // "Cross Fault", "old working North Adit", "void", "core lost" ...
    double from = 0.0, to = 0.0;       // m down the hole
    std::vector<std::string> seen_in;  // the neighbouring holes that tell of it, the nearest first; none: it is modelled
    std::optional<double> nearest;     // m that the hole's expected line keeps from it, where it passes by
    std::optional<double> likely;      // m down the hole, of a fault that the expected line crosses
};

// What tells of dangers; each hole asks the same.
struct Surroundings {
    // Something met in a drilled hole. Its ends in space, relative m.
    struct Event {
        std::string what, hole;
        Eigen::Vector3d top = Eigen::Vector3d::Zero(), bottom = Eigen::Vector3d::Zero();
    };
    std::vector<Event> events;
    const faults::Events* faults = nullptr;
    const site::Workings* workings = nullptr;
};

// So far off a hole's line that what lies there is told, m. Common practice, no source.
constexpr double told_within = 30.0;
// Less core than this is core lost. Common practice, no source.
constexpr double poor_recovery = 0.6;

// The drilling table's events (as that table names them; a bit change is none), picks that are void or lost, faults among the
// structures, and core of poor recovery. Keeps pointers to `events` and `workings`, which outlive it.
Surroundings surroundings(const tables::Records& records, const std::vector<paths::Path>& paths, const faults::Events& events,
                          const site::Workings& workings);

// Between two depths of a planned or active hole, in the order of depth. Of a fault, the stretch within which 8 holes of 10 would
// cross it: the errors of its plane and of the path are taken together. Of a working, the stretch within `told_within` of it;
// stretches of one thing that overlap are joined, but for two places where the line crosses a fault. Of what neighbours met, see
// told_by_neighbours.
std::vector<Danger> on_the_way(const paths::Path& path, double from, double to, const Surroundings& surroundings);

// Their places in the list, the most telling first: all that is modelled, voids, then what else neighbours met, the nearest
// first.
std::vector<std::size_t> by_telling(const std::vector<Danger>& dangers);
// In their order: all that is modelled and all voids, and of what else neighbours met the nearest, as far as there are no more
// than `most` in all.
std::vector<Danger> most_telling(std::vector<Danger> dangers, std::size_t most);

}  // namespace selvage::planning
