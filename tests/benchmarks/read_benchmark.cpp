#include "base/file.h"
#include "settings/project.h"
#include "tables/read.h"

#include <benchmark/benchmark.h>
#include <fmt/format.h>

#include <cstddef>
#include <filesystem>
#include <string>

using namespace selvage;

namespace {

constexpr std::size_t holes = 500;
constexpr std::size_t samples_a_hole = 400;

// 200,000 invented samples with five analyte columns, a quarter of them below detection.
std::string assay_table() {
    std::string text =
        "hole,from,to,sample,sample_type,status,certificate,laboratory,method,dispatched,received,ag_gpt,ag_fire_gpt,au_gpt,pb_"
        "pct,zn_pct\n";
    for (std::size_t i = 0; i < holes * samples_a_hole; ++i) {
        const std::size_t hole = i / samples_a_hole;
        const double from = 0.7 * static_cast<double>(i % samples_a_hole);
        const std::string silver = i % 4 == 0 ? "<0.5" : fmt::format("{}.{}", i * 7919 % 300, i % 10);
        text += fmt::format("HC-{:03},{:.2f},{:.2f},S{},,,A{},First Lab,four acid,2025-05-30,2025-06-25,{},,{},0.{:03},0.{:03}\n",
                            hole, from, from + 0.7, 30000 + i, hole, silver, i % 4 == 0 ? "<0.005" : "0.012", i * 31 % 1000,
                            i * 17 % 1000);
    }
    return text;
}

// The same made-up project for every run, in the folder for temporary files.
class ReadAssays : public benchmark::Fixture {
public:
    void SetUp(const benchmark::State&) override {
        folder_ = std::filesystem::temp_directory_path() / "selvage_read_benchmark";
        std::filesystem::create_directories(folder_);
        std::string collars = "hole,east,north,elevation,depth,azimuth,dip\n", surveys = "hole,depth,azimuth,dip\n";
        for (std::size_t hole = 0; hole < holes; ++hole) {
            collars += fmt::format("HC-{:03},{},{},1000,280,120,60\n", hole, 500000 + hole, 6000000 + hole);
            surveys += fmt::format("HC-{:03},0,120,60\n", hole);
        }
        base::write_file(folder_ / "collars.csv", collars);
        base::write_file(folder_ / "surveys.csv", surveys);
        base::write_file(folder_ / "assays.csv", assay_table());
        project = {};
        project.folder = folder_.string();
        for (const char* table : {"collars", "surveys", "assays"}) {
            settings::TableEntry entry;
            entry.table = table;
            entry.source = std::string(table) + ".csv";
            project.tables.push_back(entry);
        }
        settings::AnalyteSetting silver;
        silver.name = "ag_gpt";
        silver.from = {"ag_fire_gpt", "ag_gpt"};
        project.analytes.push_back(silver);
    }
    void TearDown(const benchmark::State&) override { std::filesystem::remove_all(folder_); }

    settings::Project project;

private:
    std::filesystem::path folder_;
};

BENCHMARK_DEFINE_F(ReadAssays, TwoHundredThousandRows)(benchmark::State& state) {
    for (auto _ : state) {
        const base::Checked<tables::Records> read = tables::read_records(project);
        if (read.value.assays.size() != holes * samples_a_hole) state.SkipWithError("rows are missing");
        benchmark::DoNotOptimize(read.value.fingerprint.size());
    }
}
BENCHMARK_REGISTER_F(ReadAssays, TwoHundredThousandRows)->Unit(benchmark::kMillisecond);

}  // namespace
