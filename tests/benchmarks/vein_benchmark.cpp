#include "veins/solid.h"
#include "veins/vein_scene.h"

#include <benchmark/benchmark.h>

// One vein of 30 oriented intercepts from its data to a closed body: mid-surface, thickness, presence, walls, outline, solid.
namespace selvage::veins {
namespace {

void vein_with_its_solid(benchmark::State& state) {
    Scene scene;
    scene.lattice(6, static_cast<int>(state.range(0)) / 6);
    for (auto _ : state) {
        const std::vector<Vein> veins = scene.model();
        benchmark::DoNotOptimize(vein_solids(veins, scene.settings.events, scene.site()));
    }
}
BENCHMARK(vein_with_its_solid)->Arg(30)->Arg(120)->Unit(benchmark::kMillisecond)->UseRealTime();

}  // namespace
}  // namespace selvage::veins
