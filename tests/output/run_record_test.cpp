#include "history/run_record.h"
#include "output/write.h"

#include "base/json.h"
#include "support/record_builders.h"

#include <gtest/gtest.h>

#include <cmath>

namespace selvage::output {
namespace {

using base::JsonArray;
using base::JsonValue;
using base::member;

forecast::Pierce pierce(const char* hole) {
    forecast::Pierce out;
    out.hole = hole;
    out.vein = "North";
    out.depth = 200.123456789;
    out.depth_p10 = 195.0;
    out.depth_p90 = 206.0;
    out.presence = 0.75;
    out.log_thickness = {{1.0}, {0.0}, {0.5}};
    out.log_grades = {{{1.0}, {std::log(400.0)}, {1.0}}, {}};
    return out;
}

struct WeeklyRun {
    settings::Project project;
    tables::Records records;
    intercepts::Intercepts intercepts;
    forecast::Forecast forecast{{pierce("K-09"), pierce("K-10")}, {}};
    std::vector<base::Finding> findings;
    std::vector<drawing::Sheet> sheets;
    RecordParts parts;

    WeeklyRun() {
        project.name = "Harrow Creek";
        project.text = "[project]\n";
        records.analytes = test::silver_and_lead();
        records.collars = {test::collar("K-09", Eigen::Vector3d::Zero(), 300.0)};
        records.hashes = {{"collars.csv", "abc"}};
        records.fingerprint = "0123456789abcdef";
        parts.run_name = "Harrow Creek 2026-11-20 01234567";
        parts.date = "2026-11-20";
        parts.files = {"pack.pdf", "tables/paths.csv"};
    }
    PackFile file() const {
        Results results;
        results.project = project;
        results.records = records;
        results.intercepts = intercepts;
        results.forecast = forecast;
        results.findings = findings;
        return run_record(results, sheets, "0.1.0", parts);
    }
    JsonValue record() const { return base::json_from(file().bytes); }
};

std::string text_at(const JsonValue& value, const char* name) { return std::get<std::string>(member(value, name)->value); }
double number_at(const JsonValue& value, const char* name) { return std::get<double>(member(value, name)->value); }
JsonArray array_at(const JsonValue& value, const char* name) { return std::get<JsonArray>(member(value, name)->value); }

TEST(RunRecord, SaysWhatTheRunWasMadeFrom) {
    const WeeklyRun run;
    const JsonValue record = run.record();
    EXPECT_EQ(run.file().name, "run.json");
    EXPECT_EQ(number_at(record, "format"), history::record_format);
    EXPECT_EQ(text_at(record, "version"), "0.1.0");
    EXPECT_EQ(text_at(record, "run"), run.parts.run_name);
    EXPECT_EQ(text_at(record, "date"), "2026-11-20");
    const JsonValue& inputs = *member(record, "inputs");
    EXPECT_EQ(text_at(inputs, "fingerprint"), run.records.fingerprint);
    EXPECT_EQ(text_at(*member(inputs, "tables_sha256"), "collars.csv"), "abc");
    EXPECT_EQ(text_at(inputs, "project_file_sha256").size(), 64U);
}

TEST(RunRecord, HoldsEverySettingSetOrNot) {
    WeeklyRun run;
    run.project.north.declination = base::Angle::degrees(12.5);
    run.project.plan.tail = 20.0;
    settings::VeinSetting vein;
    vein.name = "North";
    vein.point = Eigen::Vector3d(1.0, 2.0, 3.0);
    run.project.veins = {vein};
    run.project.survey_errors.by_method["gyro"].azimuth_common = base::Angle::degrees(0.1);
    const JsonValue record = run.record();
    const JsonValue& settings = *member(record, "settings");
    EXPECT_EQ(number_at(*member(settings, "project"), "declination"), 12.5);
    EXPECT_EQ(text_at(*member(settings, "project"), "length_unit"), "m");
    EXPECT_EQ(number_at(*member(settings, "plan"), "tail"), 20.0);
    EXPECT_EQ(number_at(*member(settings, "plan"), "count"), 10.0);
    EXPECT_TRUE(std::holds_alternative<std::nullptr_t>(member(*member(settings, "plan"), "step_out")->value));
    const JsonValue first = array_at(settings, "vein").at(0);
    EXPECT_EQ(text_at(first, "name"), "North");
    EXPECT_EQ(std::get<double>(array_at(first, "point").at(2).value), 3.0);
    EXPECT_EQ(number_at(*member(*member(settings, "survey_errors"), "gyro"), "azimuth_common"), 0.1);
    EXPECT_EQ(number_at(*member(settings, "survey_errors"), "azimuth_common"), 0.3);
}

TEST(RunRecord, HoldsEveryForecastWithItsRunAndDate) {
    const WeeklyRun run;
    const JsonArray forecasts = array_at(run.record(), "forecasts");
    ASSERT_EQ(forecasts.size(), 2U);
    EXPECT_EQ(text_at(forecasts[0], "hole"), "K-09");
    EXPECT_EQ(text_at(forecasts[0], "said"), "2026-11-20");
    EXPECT_EQ(text_at(forecasts[0], "run"), run.parts.run_name);
    EXPECT_EQ(number_at(forecasts[0], "depth_p10"), 195.0);
    EXPECT_EQ(number_at(forecasts[0], "depth_p50"), 200.1235);
    EXPECT_EQ(number_at(forecasts[0], "depth_p90"), 206.0);
    EXPECT_EQ(number_at(forecasts[0], "presence"), 0.75);
    EXPECT_EQ(std::get<double>(array_at(forecasts[0], "thickness_p10_p50_p90").at(1).value), 1.0);
    EXPECT_EQ(std::get<double>(array_at(*member(forecasts[0], "grades_p10_p50_p90"), "ag_gpt").at(1).value), 400.0);
}

TEST(RunRecord, CarriesEarlierForecastsOnFromWeekToWeek) {
    WeeklyRun first;
    const auto said = history::forecasts_of(first.file().bytes, "run.json");
    EXPECT_TRUE(said.findings.empty());
    WeeklyRun second;
    second.parts.run_name = "Harrow Creek 2026-11-27 89abcdef";
    second.parts.date = "2026-11-27";
    second.parts.earlier_forecasts = said.value;
    const auto both = history::forecasts_of(second.file().bytes, "run.json");
    ASSERT_EQ(both.value.size(), 4U);
    EXPECT_EQ(text_at(both.value[0], "said"), "2026-11-20");
    EXPECT_EQ(text_at(both.value[3], "said"), "2026-11-27");

    WeeklyRun again = second;  // the same data run once more, beside its own pack
    again.parts.earlier_forecasts = both.value;
    EXPECT_EQ(again.file().bytes, second.file().bytes);
}

TEST(RunRecord, ListsItsFilesWarningsAndLabelFigures) {
    WeeklyRun run;
    const base::Check error = {"from-after-to", base::Severity::error, "", ""};
    const base::Check note = {"unknown-column", base::Severity::note, "", ""};
    run.findings = {{&error, {"picks", "picks.csv", 12}, "K-07", "left out"},
                    {&note, {"pads", "pads.csv", 1}, "", "carried along"}};
    drawing::Sheet sheet;
    sheet.kind = "plan";
    sheet.name = "all";
    sheet.labels.wanted = 12;
    sheet.labels.overlaps = 0;
    sheet.labels.leader_mean_mm = 3.25;
    run.sheets = {sheet};
    const JsonValue record = run.record();
    const JsonArray files = array_at(record, "files");
    ASSERT_EQ(files.size(), 3U);
    EXPECT_EQ(std::get<std::string>(files[0].value), "run.json");
    const JsonArray warnings = array_at(record, "warnings");
    ASSERT_EQ(warnings.size(), 1U);
    EXPECT_EQ(text_at(warnings[0], "line"), "picks.csv:12: error: hole K-07: left out");
    const JsonArray sheets = array_at(record, "sheets");
    EXPECT_EQ(text_at(sheets.at(0), "file"), "sheets/01-plan-all.pdf");
    EXPECT_EQ(number_at(*member(sheets.at(0), "labels"), "wanted"), 12.0);
    EXPECT_EQ(number_at(*member(sheets.at(0), "labels"), "leader_mean_mm"), 3.25);
    EXPECT_EQ(number_at(*member(*member(record, "counts"), "findings"), "error"), 1.0);
    EXPECT_EQ(number_at(*member(*member(record, "counts"), "holes_by_status"), "done"), 1.0);
}

TEST(RunRecord, IsTheSameBytesEachTime) { EXPECT_EQ(WeeklyRun().file().bytes, WeeklyRun().file().bytes); }

}  // namespace
}  // namespace selvage::output
