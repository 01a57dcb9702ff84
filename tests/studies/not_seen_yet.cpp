#include "studies/chain.h"
#include "studies/studies.h"

#include "base/parallel.h"
#include "forecast/not_seen.h"
#include "support/forecast_world.h"

#include <fmt/format.h>

#include <cstdint>

#include <cmath>

namespace selvage::studies {

namespace {

constexpr std::uint64_t first_world = 5000;
constexpr std::size_t worlds = 300, drilled = 12, planned = 2, fewest_hits = 4;
constexpr std::array<double, 5> points{0.10, 0.50, 0.90, 0.97, 0.99};

// What was said once nothing had been seen down to a point of the curve, and what came.
struct Unseen {
    bool asked = false;  // nothing had been seen by then
    double said = 0.0;
    bool came = false;
};
using Trial = std::array<Unseen, points.size()>;

std::vector<Trial> trials_of(std::uint64_t world) {
    const made_up::ForecastWorld made = made_up::broken_forecast_world(world, drilled, planned);
    const app::Results results = results_of(made.project, fmt::format("broken-world-{}", world));
    std::vector<Trial> trials;
    if (results.intercepts.met.size() < fewest_hits) return trials;
    for (const std::string& hole : made.planned) {
        const forecast::Pierce* row = pierce_of(results, hole);
        const std::optional<double> truth = made.project.true_pierce(hole, 0, 1e9);
        if (row == nullptr || !truth) continue;
        const bool there = made.project.is_present_at(hole, 0, *truth);
        Trial trial;
        for (std::size_t i = 0; i < points.size(); ++i) {
            const double depth = row->crossing.depth_at(points[i]);
            trial[i] = {!there || *truth > depth, forecast::chance_ahead({&*row}, depth), there};
        }
        trials.push_back(trial);
    }
    return trials;
}

}  // namespace

Study not_seen_yet() {
    const std::array<double, points.size()> window{0.08, 0.08, 0.15, 0.0, 0.0};
    Study study{
        "Not seen yet: chance that the vein lies ahead",
        fmt::format("{} projects, twelve holes through a vein with windows, ends, pinches or lenses, four hits or more, two "
                    "planned holes each. Nothing seen down to that point of the depth curve",
                    worlds),
        fmt::format("worlds {} to {}", first_world, first_world + worlds - 1),
        {"10 %", "50 %", "90 %", "97 %", "99 %"},
        2,
        {},
        {}};
    std::vector<std::vector<Trial>> by_world(worlds);
    base::parallel_for(worlds, [&](std::size_t world) { by_world[world] = trials_of(first_world + world); });
    Row said{"said", 0, {}}, came{"came", 0, {}}, off{"said less came", 0, {}};
    for (std::size_t i = 0; i < points.size(); ++i) {
        double count = 0.0, said_sum = 0.0, came_sum = 0.0;
        for (const std::vector<Trial>& trials : by_world)
            for (const Trial& trial : trials) {
                if (!trial[i].asked) continue;
                count += 1.0;
                said_sum += trial[i].said;
                came_sum += trial[i].came ? 1.0 : 0.0;
            }
        const auto held = window[i] > 0.0 ? std::optional<Window>({-window[i], window[i]}) : std::nullopt;
        said.figures.emplace_back(Figure{said_sum / count, std::nullopt});
        came.figures.emplace_back(Figure{came_sum / count, std::nullopt});
        off.figures.emplace_back(Figure{(said_sum - came_sum) / count, held});
    }
    std::size_t trials = 0;
    for (const std::vector<Trial>& world : by_world) trials += world.size();
    said.count = came.count = off.count = trials;
    study.rows = {said, came, off};
    return study;
}

}  // namespace selvage::studies
