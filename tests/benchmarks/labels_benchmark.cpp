#include "base/random.h"
#include "drawing/labels.h"
#include "support/label_cases.h"

#include <benchmark/benchmark.h>

#include <cmath>

namespace selvage::drawing {
namespace {

// A whole vein on A1: 150 hits along 50 holes that fan out, 40 segments each. Should take under 60 ms.
void place_150_labels_among_2000_segments(benchmark::State& state) {
    const FontMetrics fonts = made_up::plain_metrics();
    const LabelRules rules{{20.0, 20.0, 740.0, 560.0}};
    base::RandomStream random("label benchmark", {1});
    std::vector<Label> labels;
    Obstacles obstacles;
    for (int hole = 0; hole < 50; ++hole) {
        const double left = 40.0 + 12.0 * hole, slope = random.uniform(-0.2, 0.5), step = random.uniform(5.0, 12.0);
        const auto at_step = [&](double n) { return Point{left + slope * step * n, 550.0 - step * n}; };
        for (int i = 0; i < 40; ++i) obstacles.lines.push_back({at_step(i), at_step(i + 1)});
        for (int hit = 0; hit < 3; ++hit) {
            Label label;
            label.owner = "hole";
            label.at = at_step(random.uniform(2.0, 38.0));
            label.priority = static_cast<int>(random.below(6));
            label.lines = {{"AB-10", {8.0, FontFace::bold, {}}}, {"1.5 m TW @ 885 g/t Ag", {7.0, FontFace::regular, {}}}};
            labels.push_back(label);
        }
    }
    LabelFigures figures;
    for (auto _ : state) {
        figures = place_labels(labels, obstacles, rules, fonts).figures;
        benchmark::DoNotOptimize(figures);
    }
    state.counters["beside"] = static_cast<double>(figures.beside);
    state.counters["on_leaders"] = static_cast<double>(figures.on_leaders);
    state.counters["listed"] = static_cast<double>(figures.listed);
    state.counters["mean_mm"] = figures.leader_mean_mm;
}
BENCHMARK(place_150_labels_among_2000_segments)->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace selvage::drawing
