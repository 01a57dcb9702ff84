#include "base/parallel.h"
#include "base/random.h"
#include "paths/locate.h"

#include <benchmark/benchmark.h>

#include <cstdint>
#include <string>
#include <vector>

// Paths and their errors at the end for invented holes of twenty stations. Wanted: 5,000 holes in 0.2 s on two cores.
namespace selvage::paths {
namespace {

tables::Records invented_holes(std::size_t count) {
    tables::Records records;
    for (std::size_t i = 0; i < count; ++i) {
        base::RandomStream random("holes of a benchmark", {static_cast<std::uint64_t>(i)});
        tables::Collar collar;
        collar.hole = "H-" + std::to_string(i);
        collar.position = {random.uniform(0, 3000), random.uniform(0, 3000), random.uniform(-50, 50)};
        collar.depth = 400.0;
        records.collars.push_back(collar);
        const double azimuth = random.uniform(0, 360), dip = random.uniform(45, 80);
        const double lift = random.uniform(-0.01, 0.04), swing = random.uniform(-0.03, 0.03);
        for (int station = 0; station < 20; ++station) {
            tables::Survey survey;
            survey.hole = collar.hole;
            survey.depth = 20.0 * station;
            survey.azimuth = base::Azimuth::degrees(azimuth + swing * survey.depth);
            survey.dip = base::Dip::degrees(dip - lift * survey.depth);
            survey.method = "single shot";
            records.surveys.push_back(survey);
        }
    }
    return records;
}

void locate_holes(benchmark::State& state) {
    const tables::Records records = invented_holes(static_cast<std::size_t>(state.range(0)));
    for (auto step : state) {
        const auto located = locate(records, {});
        std::vector<std::size_t> effects(located.value.size());
        base::parallel_for(effects.size(), [&](std::size_t i) { effects[i] = effects_at(located.value[i], 400.0).size(); });
        benchmark::DoNotOptimize(effects.data());
    }
}
BENCHMARK(locate_holes)->Arg(500)->Arg(5000)->Unit(benchmark::kMillisecond)->UseRealTime();

}  // namespace
}  // namespace selvage::paths
