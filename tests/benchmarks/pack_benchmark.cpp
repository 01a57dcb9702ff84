#include "app/pack.h"
#include "base/parallel.h"
#include "sheets/made_up_pack.h"

#include <benchmark/benchmark.h>

#include <sys/resource.h>

#include <algorithm>
#include <chrono>
#include <vector>

// The example's results to its pack: every sheet composed and drawn, in one document and each by itself.
namespace selvage {
namespace {

std::size_t drawn(const std::vector<drawing::Sheet>& sheets) {
    std::size_t bytes = 0;
    for (const output::PackFile& file :
         app::documents(sheets, sheets::made_up_pack().fonts, sheets::made_up_pack().run, "made up"))
        bytes += file.bytes.size();
    return bytes;
}

std::vector<drawing::Sheet> composed() {
    const sheets::MadeUpPack& pack = sheets::made_up_pack();
    return compose_pack(pack.results(), pack.run, pack.style, pack.fonts.metrics);
}

double seconds_of_a_pack(std::size_t threads) {
    base::set_jobs(threads);
    const auto start = std::chrono::steady_clock::now();
    benchmark::DoNotOptimize(drawn(composed()));
    return std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
}

// Should take under 1 s for each 40 sheets on two threads.
void example_pack_composed_and_drawn(benchmark::State& state) {
    sheets::made_up_pack();
    base::set_jobs(static_cast<std::size_t>(state.range(0)));
    for (auto _ : state) benchmark::DoNotOptimize(drawn(composed()));
    state.counters["sheets"] = static_cast<double>(sheets::made_up_pack().sheets.size());
    base::set_jobs(0);
}
BENCHMARK(example_pack_composed_and_drawn)->Arg(1)->Arg(2)->Unit(benchmark::kMillisecond)->UseRealTime()->MeasureProcessCPUTime();

void example_pack_composed(benchmark::State& state) {
    sheets::made_up_pack();
    base::set_jobs(1);
    for (auto _ : state) benchmark::DoNotOptimize(composed());
    base::set_jobs(0);
}
BENCHMARK(example_pack_composed)->Unit(benchmark::kMillisecond)->UseRealTime();

// Two threads against one, the best of five each: should be 1.6 or more on two idle cores.
void two_threads_against_one(benchmark::State& state) {
    sheets::made_up_pack();
    double one = 1e9, two = 1e9;
    for (auto _ : state)
        for (int i = 0; i < 5; ++i) {
            one = std::min(one, seconds_of_a_pack(1));
            two = std::min(two, seconds_of_a_pack(2));
        }
    state.counters["times_as_fast"] = one / two;
    state.counters["one_s"] = one;
    state.counters["two_s"] = two;
    base::set_jobs(0);
}
BENCHMARK(two_threads_against_one)->Iterations(1)->Unit(benchmark::kSecond)->UseRealTime()->MeasureProcessCPUTime();

// Should take under 6 s and 600 MB (of the whole process) on two threads.
void three_hundred_sheets(benchmark::State& state) {
    sheets::made_up_pack();
    base::set_jobs(2);
    std::size_t count = 0;
    for (auto _ : state) {
        std::vector<drawing::Sheet> all;
        while (all.size() < 300)
            for (drawing::Sheet& sheet : composed()) all.push_back(std::move(sheet));
        all.resize(300);
        benchmark::DoNotOptimize(drawn(all));
        count = all.size();
    }
    rusage used{};
    getrusage(RUSAGE_SELF, &used);
    state.counters["sheets"] = static_cast<double>(count);
    state.counters["most_MB"] = static_cast<double>(used.ru_maxrss) / 1024.0;
    base::set_jobs(0);
}
BENCHMARK(three_hundred_sheets)->Iterations(1)->Unit(benchmark::kSecond)->UseRealTime()->MeasureProcessCPUTime();

}  // namespace
}  // namespace selvage
