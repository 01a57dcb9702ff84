#include "studies/chain.h"
#include "studies/studies.h"

#include "base/parallel.h"
#include "support/forecast_world.h"

#include <fmt/format.h>

#include <cstdint>

#include <functional>

namespace selvage::studies {

namespace {

constexpr std::size_t drilled = 10, planned = 2;

struct Trial {
    double rank = 0.0, width = 0.0;  // m, p10 to p90
    double angle = 0.0;              // degrees, of hole and vein
    double distance = 0.0;           // to the nearest hit, hole spacings
};

std::vector<Trial> trials_of(std::uint64_t world) {
    const made_up::ForecastWorld made = made_up::forecast_world(world, drilled, planned);
    const app::Results results = results_of(made.project, fmt::format("forecast-world-{}", world));
    std::vector<Trial> trials;
    for (const std::string& hole : made.planned) {
        const forecast::Pierce* row = pierce_of(results, hole);
        const std::optional<double> truth = made.project.true_pierce(hole, 0, 1e9);
        if (row == nullptr || !truth) continue;
        const veins::Vein& vein = results.veins[row->vein_number];
        trials.push_back({rank_in(row->crossing, *truth), row->depth_p90 - row->depth_p10, row->angle.degrees(),
                          vein.at(row->point).nearest_hit / vein.summary().hole_spacing});
    }
    return trials;
}

}  // namespace

Study pierce_depths(std::size_t worlds) {
    Study study{
        "Depth where a planned hole pierces, through the tables",
        fmt::format("{} projects of six kinds of surface, ten oriented holes from two pads, 30 to 75° to the vein, stations "
                    "every 15 m with survey errors, holes that wander; two planned holes each. How often ranges hold, and how "
                    "wide p10 to p90 is",
                    worlds),
        fmt::format("worlds 0 to {}", worlds - 1),
        {"50 %", "80 %", "95 %", "width, m"},
        1,
        {},
        {}};
    std::vector<std::vector<Trial>> by_world(worlds);
    base::parallel_for(worlds, [&](std::size_t world) { by_world[world] = trials_of(world); });
    const auto add_row = [&](const std::string& what, const std::function<bool(const Trial&)>& belongs, bool held) {
        made_up::Coverage pool;
        double width = 0.0;
        for (const std::vector<Trial>& trials : by_world)
            for (const Trial& trial : trials) {
                if (!belongs(trial)) continue;
                pool.add_rank(trial.rank);
                width += trial.width;
            }
        Row row = held ? coverage_row(what, pool, Window{44, 60}, Window{75, 88}) : coverage_row(what, pool);
        row.figures.emplace_back(Figure{width / static_cast<double>(pool.count), std::nullopt});
        study.rows.push_back(row);
        if (held) study.reliability.emplace_back("pierce depth, through the tables", pool);
    };
    for (const auto& [low, high] : {std::pair{0.0, 45.0}, {45.0, 60.0}, {60.0, 90.0}})
        add_row(
            low == 0.0    ? "under 45° to the vein"
            : high < 90.0 ? "45 to 60°"
                          : "over 60°",
            [low = low, high = high](const Trial& trial) { return trial.angle >= low && trial.angle < high; }, false);
    for (const auto& [low, high] : {std::pair{0.0, 0.5}, {0.5, 1.0}, {1.0, 1e9}})
        add_row(
            low == 0.0   ? "nearest hit under half a spacing off"
            : high < 2.0 ? "half to one spacing"
                         : "over one spacing",
            [low = low, high = high](const Trial& trial) { return trial.distance >= low && trial.distance < high; }, false);
    add_row(
        "all", [](const Trial&) { return true; }, true);
    return study;
}

}  // namespace selvage::studies
