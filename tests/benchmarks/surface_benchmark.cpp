#include "support/made_up_vein.h"
#include "veins/surface.h"

#include <benchmark/benchmark.h>

// Cost of a vein's surface: oriented intercepts on about 50 m, and a thousand places asked for.
namespace selvage::veins {
namespace {

std::vector<SurfaceDatum> oriented_intercepts(const benchmark::State& state) {
    return made_up::vein(7, static_cast<std::size_t>(state.range(0)), 1, true).data;
}

Eigen::Vector2d place_number(int i) { return {static_cast<double>(i % 40) * 10.0, static_cast<double>(i / 40) * 10.0}; }

void fit(benchmark::State& state) {
    const std::vector<SurfaceDatum> data = oriented_intercepts(state);
    for (auto _ : state) benchmark::DoNotOptimize(fit_surface(data, 50.0, {}));
}
BENCHMARK(fit)->Arg(10)->Arg(30)->Arg(60)->Arg(150)->Unit(benchmark::kMillisecond)->UseRealTime();

void thousand_heights(benchmark::State& state) {
    const auto model = fit_surface(oriented_intercepts(state), 50.0, {});
    for (auto _ : state)
        for (int i = 0; i < 1000; ++i) benchmark::DoNotOptimize(height_at(*model, place_number(i)));
}
BENCHMARK(thousand_heights)->Arg(10)->Arg(30)->Arg(150)->Unit(benchmark::kMillisecond)->UseRealTime();

void thousand_means(benchmark::State& state) {
    const auto model = fit_surface(oriented_intercepts(state), 50.0, {});
    for (auto _ : state)
        for (int i = 0; i < 1000; ++i) benchmark::DoNotOptimize(mean_at(*model, place_number(i)));
}
BENCHMARK(thousand_means)->Arg(10)->Arg(30)->Arg(150)->Unit(benchmark::kMillisecond)->UseRealTime();

void every_leave_one_out(benchmark::State& state) {
    const auto data = oriented_intercepts(state);
    const auto model = fit_surface(data, 50.0, {});
    for (auto _ : state)
        for (std::size_t i = 0; i < data.size(); ++i) benchmark::DoNotOptimize(leave_one_out_height(*model, i));
}
BENCHMARK(every_leave_one_out)->Arg(30)->Arg(150)->Unit(benchmark::kMillisecond)->UseRealTime();

}  // namespace
}  // namespace selvage::veins
