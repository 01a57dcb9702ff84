#include "output/write.h"

#include "base/file.h"
#include "base/text.h"
#include "history/run_record.h"
#include "settings/values.h"

#include <cmath>
#include <map>
#include <utility>

namespace selvage::output {

namespace {

using base::JsonArray;
using base::JsonObject;
using base::JsonValue;

// Figures of a forecast are kept to a tenth of a millimetre, a hundredth of a per cent: no more than they mean, and the same text
// on machines whose mathematics differ in the last bit.
JsonValue figure(double value) { return base::parse_number(base::fixed(value, 4)).value_or(std::nan("")); }
JsonValue grade_figure(double value) { return base::parse_number(base::significant(value, 6)).value_or(std::nan("")); }

// p10, median and p90 of a log-normal mixture; null where it is empty.
template <typename Figure>
JsonValue three_points(const numerics::NormalMixture& log_value, Figure figure_of) {
    if (log_value.empty()) return {};
    JsonArray points;
    for (const double probability : {0.1, 0.5, 0.9}) points.push_back(figure_of(std::exp(log_value.quantile(probability))));
    return points;
}

JsonValue budget_record(const veins::ErrorBudget& budget) {
    JsonArray parts, measurements;
    for (const veins::ErrorBudget::Part& part : budget.parts)
        parts.push_back(JsonObject{{"what", part.what}, {"share", figure(part.share)}});
    for (const veins::ErrorBudget::Measurement& one : budget.measurements)
        measurements.push_back(JsonObject{{"what", one.what}, {"leaves_of_sd", figure(one.sd_factor)}});
    return JsonObject{{"parts", std::move(parts)}, {"measurements", std::move(measurements)}};
}

JsonValue forecast_record(const forecast::Pierce& pierce, const std::vector<tables::Analyte>& analytes,
                          const RecordParts& parts) {
    JsonObject grades;
    for (std::size_t i = 0; i < std::min(analytes.size(), pierce.log_grades.size()); ++i)
        grades.emplace_back(analytes[i].name, three_points(pierce.log_grades[i], grade_figure));
    return JsonObject{{"said", parts.date},
                      {"run", parts.run_name},
                      {"hole", pierce.hole},
                      {"vein", pierce.vein},
                      {"block", pierce.crossing.block},
                      {"depth_p10", figure(pierce.depth_p10)},
                      {"depth_p50", figure(pierce.depth)},
                      {"depth_p90", figure(pierce.depth_p90)},
                      {"call_depth", figure(pierce.call_depth)},
                      {"stop_depth", figure(pierce.stop_depth)},
                      {"chance_reached", figure(pierce.chance_reached)},
                      {"presence", figure(pierce.presence)},
                      {"error_budget", budget_record(pierce.budget)},
                      {"thickness_p10_p50_p90", three_points(pierce.log_thickness, figure)},
                      {"grades_p10_p50_p90", std::move(grades)}};
}

// Those of earlier runs, then this run's; a run that is done again takes the place of what it said before.
JsonArray all_forecasts(const Results& results, const RecordParts& parts) {
    JsonArray all;
    for (const JsonValue& earlier : parts.earlier_forecasts) {
        const JsonValue* run = base::member(earlier, "run");
        const auto* name = run == nullptr ? nullptr : std::get_if<std::string>(&run->value);
        if (name == nullptr || *name != parts.run_name) all.push_back(earlier);
    }
    for (const forecast::Pierce& pierce : results.forecast.pierces)
        all.push_back(forecast_record(pierce, results.records.analytes, parts));
    return all;
}

const char* word_of(tables::HoleStatus status) {
    switch (status) {
        case tables::HoleStatus::done: return "done";
        case tables::HoleStatus::active: return "active";
        case tables::HoleStatus::planned: return "planned";
        case tables::HoleStatus::suspended: return "suspended";
        case tables::HoleStatus::abandoned: return "abandoned";
        default: return "cancelled";
    }
}

JsonObject counts_of(const Results& results) {
    const tables::Records& records = results.records;
    std::map<std::string, std::size_t> holes, findings = {{"error", 0}, {"note", 0}, {"warning", 0}};
    for (const tables::Collar& collar : records.collars) ++holes[word_of(collar.status)];
    for (const base::Finding& finding : results.findings) ++findings[base::word_of(finding.check->severity)];
    JsonObject by_status, by_severity;
    for (const auto& [status, count] : holes) by_status.emplace_back(status, count);
    for (const auto& [severity, count] : findings) by_severity.emplace_back(severity, count);
    return JsonObject{{"holes", records.collars.size()},
                      {"holes_by_status", std::move(by_status)},
                      {"holes_placed", results.paths.size()},
                      {"surveys", records.surveys.size()},
                      {"picks", records.picks.size()},
                      {"geology", records.geology.size()},
                      {"assays", records.assays.size()},
                      {"structures", records.structures.size()},
                      {"recovery", records.recovery.size()},
                      {"outcrops", records.outcrops.size()},
                      {"intercepts", results.intercepts.met.size()},
                      {"veins_modelled", results.veins.size()},
                      {"forecasts", results.forecast.pierces.size()},
                      {"findings", std::move(by_severity)}};
}

JsonArray warnings_of(const std::vector<base::Finding>& findings) {
    JsonArray lines;
    for (const base::Finding& finding : findings)
        if (finding.check->severity != base::Severity::note)
            lines.emplace_back(JsonObject{{"check", finding.check->id}, {"line", base::line_of(finding)}});
    return lines;
}

JsonArray sheets_of(const std::vector<drawing::Sheet>& sheets) {
    JsonArray all;
    for (std::size_t i = 0; i < sheets.size(); ++i) {
        const drawing::LabelFigures& labels = sheets[i].labels;
        all.emplace_back(JsonObject{{"file", sheet_file_name(sheets[i], i + 1, sheets.size())},
                                    {"title", sheets[i].title},
                                    {"labels", JsonObject{{"wanted", labels.wanted},
                                                          {"beside", labels.beside},
                                                          {"on_leaders", labels.on_leaders},
                                                          {"listed", labels.listed},
                                                          {"overlaps", labels.overlaps},
                                                          {"crossings", labels.crossings},
                                                          {"leader_mean_mm", figure(labels.leader_mean_mm)},
                                                          {"leader_longest_mm", figure(labels.leader_longest_mm)}}}});
    }
    return all;
}

JsonObject inputs_of(const Results& results) {
    JsonObject hashes;
    for (const auto& [source, hash] : results.records.hashes) hashes.emplace_back(source, hash);
    return JsonObject{{"fingerprint", results.records.fingerprint},
                      {"project_file_sha256", base::sha256_hex(results.project.text)},
                      {"tables_sha256", std::move(hashes)}};
}

}  // namespace

PackFile run_record(const Results& results, const std::vector<drawing::Sheet>& sheets, const std::string& version,
                    const RecordParts& parts) {
    JsonArray files = {"run.json"};
    for (const std::string& file : parts.files) files.emplace_back(file);
    const JsonObject record = {{"format", history::record_format},
                               {"program", "Selvage"},
                               {"version", version},
                               {"project", results.project.name},
                               {"run", parts.run_name},
                               {"date", parts.date},
                               {"units", "metres and degrees, whatever the project's; grades in the unit of their name"},
                               {"inputs", inputs_of(results)},
                               {"settings", settings::values_of(results.project)},
                               {"counts", counts_of(results)},
                               {"warnings", warnings_of(results.findings)},
                               {"sheets", sheets_of(sheets)},
                               {"forecasts", all_forecasts(results, parts)},
                               {"files", std::move(files)}};
    return {"run.json", base::json_text(record)};
}

}  // namespace selvage::output
