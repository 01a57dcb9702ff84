#include "base/random.h"
#include "support/made_up_vein.h"
#include "veins/log_field.h"
#include "veins/presence.h"
#include "veins/surface.h"

#include <benchmark/benchmark.h>

#include <sys/resource.h>
#include <cmath>
#include <string>

// Cost of a vein's surface: oriented intercepts on about 50 m, and a thousand places asked for.
namespace selvage::veins {
namespace {

// Of the whole program so far: run one size alone for that size's own.
double peak_megabytes() {
    rusage usage{};
    getrusage(RUSAGE_SELF, &usage);
    return static_cast<double>(usage.ru_maxrss) / 1024.0;
}

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

// Everything that is computed of one vein's oriented intercepts: surface, thickness, grade and presence fitted to all of them,
// and a mixture of the height, of thickness and of grade and the chance of presence at 200 places even over their box. Nothing is
// drawn. The vein is made up of waves and noise, holes about 50 m apart: an exact field at 5,000 holes would take an hour.
struct DrilledVein {
    std::vector<SurfaceDatum> surface;
    std::vector<LogDatum> logs;
    std::vector<PresenceDatum> presences;
    std::vector<Eigen::Vector2d> places;
};

DrilledVein drilled_vein(std::size_t holes) {
    const auto columns = static_cast<std::size_t>(std::ceil(std::sqrt(1.5 * static_cast<double>(holes))));
    base::RandomStream stream("benchmark vein", {holes});
    DrilledVein vein;
    Eigen::Vector2d upper = Eigen::Vector2d::Zero();
    for (std::size_t i = 0; i < holes; ++i) {
        const Eigen::Vector2d corner(static_cast<double>(i % columns), static_cast<double>(i / columns));
        const double u = 50.0 * corner.x() + 11.0 * stream.normal(), v = 50.0 * corner.y() + 11.0 * stream.normal();
        upper = upper.cwiseMax(Eigen::Vector2d(u, v));
        SurfaceDatum datum;
        datum.hole = "K-" + std::to_string(i);
        datum.place = {u, v};
        datum.height = 6.0 * std::sin(u / 90.0) * std::cos(v / 120.0) + 0.6 * stream.normal();
        datum.scaled_variance = 0.36;
        const double du = std::cos(u / 90.0) * std::cos(v / 120.0) / 15.0, dv = -std::sin(u / 90.0) * std::sin(v / 120.0) / 20.0;
        datum.normal = Eigen::Vector3d(-du + 0.1 * stream.normal(), -dv + 0.1 * stream.normal(), 1.0).normalized();
        vein.surface.push_back(datum);
        vein.logs.push_back({datum.place, -0.7 + 0.5 * std::sin(u / 70.0) + 0.35 * stream.normal(), 0.01});
        vein.presences.push_back({datum.place, std::sin(u / 150.0) + std::cos(v / 110.0) + 0.3 * stream.normal() > -0.8, true});
    }
    for (int i = 0; i < 20; ++i)
        for (int j = 0; j < 10; ++j) vein.places.emplace_back(upper.cwiseProduct(Eigen::Vector2d(i / 19.0, j / 9.0)));
    return vein;
}

void statistics_of(const DrilledVein& vein) {
    LogFieldPrior grade;
    grade.sd = grade.nugget_sd = {0.3, 0.7, 1.4};
    benchmark::DoNotOptimize(heights_at(*fit_surface(vein.surface, 50.0, SurfaceRules{true}), vein.places));
    for (const LogFieldPrior& prior : {LogFieldPrior{}, grade})
        benchmark::DoNotOptimize(log_values_at(*fit_log_field(vein.logs, 50.0, prior), vein.places));
    benchmark::DoNotOptimize(presences_at(*fit_presence(vein.presences, 50.0), vein.places));
}

void whole_statistics(benchmark::State& state) {
    const DrilledVein vein = drilled_vein(static_cast<std::size_t>(state.range(0)));
    for (auto _ : state) statistics_of(vein);
    state.counters["peak_MB"] = peak_megabytes();
}
BENCHMARK(whole_statistics)
    ->Arg(30)
    ->Arg(100)
    ->Arg(300)
    ->Arg(500)
    ->Arg(1000)
    ->Arg(2000)
    ->Arg(5000)
    ->Unit(benchmark::kMillisecond)
    ->UseRealTime();

void surface_alone(benchmark::State& state) {
    const DrilledVein vein = drilled_vein(static_cast<std::size_t>(state.range(0)));
    for (auto _ : state) benchmark::DoNotOptimize(heights_at(*fit_surface(vein.surface, 50.0, SurfaceRules{true}), vein.places));
}
BENCHMARK(surface_alone)->Arg(500)->Arg(1000)->Arg(5000)->Unit(benchmark::kMillisecond)->UseRealTime();

void thickness_alone(benchmark::State& state) {
    const DrilledVein vein = drilled_vein(static_cast<std::size_t>(state.range(0)));
    for (auto _ : state) benchmark::DoNotOptimize(log_values_at(*fit_log_field(vein.logs, 50.0, {}), vein.places));
}
BENCHMARK(thickness_alone)->Arg(500)->Arg(1000)->Arg(5000)->Unit(benchmark::kMillisecond)->UseRealTime();

void presence_alone(benchmark::State& state) {
    const DrilledVein vein = drilled_vein(static_cast<std::size_t>(state.range(0)));
    for (auto _ : state) benchmark::DoNotOptimize(presences_at(*fit_presence(vein.presences, 50.0), vein.places));
}
BENCHMARK(presence_alone)->Arg(500)->Arg(1000)->Arg(5000)->Unit(benchmark::kMillisecond)->UseRealTime();

}  // namespace
}  // namespace selvage::veins
