#include "sheets/check_table.h"

#include "base/text.h"
#include "paths/locate.h"
#include "sheets/finding_groups.h"
#include "sheets/log_records.h"

#include <array>
#include <map>
#include <string>
#include <utility>

namespace selvage::sheets {

namespace {

constexpr std::size_t all_shown = 8, first_shown = 6;           // rows of one check
constexpr double message_width = 205.0, meaning_width = 245.0;  // mm
constexpr std::size_t message_column = 4;
constexpr double rate_length = 100.0;  // lengths, of a rate

// Words over several columns, on as many rows as they take; those after the first belong to it.
void add_wrapped(TypesetTable& table, TableRow first, std::size_t column, const std::string& text, double width,
                 const Tools& tools) {
    const std::size_t columns = table.columns.size();
    bool is_first = true;
    for (const std::string& line : drawing::wrapped(tools.fonts, tools.style.text("table_text"), text, width)) {
        TableRow row = std::exchange(first, TableRow());
        row.joined = row.joined || !is_first;
        row.cells.resize(columns);
        row.cells[column].text = line;
        row.cells[column].spans = columns - column;
        table.rows.push_back(std::move(row));
        is_first = false;
    }
}

const char* plural_word(base::Severity severity) {
    return severity == base::Severity::error ? "error" : severity == base::Severity::warning ? "warning" : "note";
}

const char* type_words(tables::HoleType type) { return type == tables::HoleType::core ? "core holes" : "percussion holes"; }

std::string rate_figure(double radians_per_metre, const base::MapFrame& frame) {
    const double per_length = radians_per_metre * rate_length * base::metres_per(frame.unit);
    return base::fixed(base::Angle::radians(per_length).degrees(), 2);
}

}  // namespace

TypesetTable check_table(const Results& results, const std::vector<base::Finding>& findings, const Tools& tools) {
    TypesetTable table;
    table.heading = "What the checks found: errors first, then warnings, then notes";
    table.columns = {{"Severity", "", Cells::words, true},
                     {"Table", "", Cells::words, false},
                     {"Row", "", Cells::figures, false},
                     {"Hole", "", Cells::words, true},
                     {"What was found, and what was done about it", "", Cells::words, false, message_width}};
    const std::map<std::string, std::string> logs = log_destinations(results);
    std::array<std::size_t, 3> counts{};
    for (const FindingGroup& group : finding_groups(findings)) {
        counts[static_cast<std::size_t>(group.check->severity)] += group.findings.size();
        TableRow head;
        head.rule_above = true;
        head.cells.resize(table.columns.size());
        head.cells[0].text = plural_word(group.check->severity);
        add_wrapped(table, std::move(head), 1,
                    times_words(group) + ": " + group.check->meaning + " What to do: " + group.check->what_to_do, meaning_width,
                    tools);
        const std::size_t shown = group.findings.size() <= all_shown ? group.findings.size() : first_shown;
        for (std::size_t i = 0; i < shown; ++i) {
            const base::Finding& finding = *group.findings[i];
            TableRow row;
            row.joined = i == 0;
            const auto log = logs.find(finding.hole);
            row.cells = {{""},
                         {finding.origin.table},
                         {finding.origin.row > 0 ? std::to_string(finding.origin.row) : ""},
                         {finding.hole, log == logs.end() ? "" : log->second}};
            add_wrapped(table, std::move(row), message_column, finding.message, message_width, tools);
        }
        if (shown < group.findings.size()) {
            TableRow row;
            row.joined = true;
            add_wrapped(table, std::move(row), message_column,
                        "and " + std::to_string(group.findings.size() - shown) + " more: full list in tables/checks.csv",
                        message_width, tools);
        }
    }
    table.end_words =
        (counts[0] == 0 ? "No errors" : count_words(counts[0], "error")) + ", " + count_words(counts[1], "warning") + ", " +
        count_words(counts[2], "note") +
        ". An error leaves the row out, cuts it or reads it as empty; a warning keeps it. Rows are lines of the file.";
    return table;
}

TypesetTable deviation_table(const Results& results) {
    const base::MapFrame& frame = results.records.frame;
    const std::string unit = "°/100 " + std::string(base::symbol_of(frame.unit));
    TypesetTable table;
    table.heading = "How the project's own holes deviate: what planned and active holes are run on by";
    table.columns = {{"Group", "", Cells::words, true},
                     {"Holes", "surveyed", Cells::figures, false},
                     {"Lift", unit, Cells::figures, true},
                     {"±", unit, Cells::figures, false},
                     {"Hole to hole", unit, Cells::figures, false},
                     {"Swing", unit, Cells::figures, true},
                     {"±", unit, Cells::figures, false},
                     {"Hole to hole", unit, Cells::figures, false},
                     {"Starts off by", "° azimuth", Cells::figures, false},
                     {"and by", "° dip", Cells::figures, false}};
    for (const auto& [type, deviation] :
         paths::deviation_of_holes(results.records, {results.project.survey_errors, results.project.survey_preference})) {
        if (!tables::is_drill_hole(type)) continue;
        TableRow row;
        row.cells = {{type_words(type)},
                     {std::to_string(deviation.holes)},
                     {rate_figure(deviation.lift.mean, frame)},
                     {rate_figure(deviation.lift.mean_sd, frame)},
                     {rate_figure(deviation.lift.between, frame)},
                     {rate_figure(deviation.swing.mean, frame)},
                     {rate_figure(deviation.swing.mean_sd, frame)},
                     {rate_figure(deviation.swing.between, frame)},
                     {base::fixed(deviation.start_azimuth.degrees(), 1)},
                     {base::fixed(deviation.start_dip.degrees(), 1)}};
        table.rows.push_back(std::move(row));
    }
    table.end_words =
        "Lift: fall of dip; swing: turn to the right across the hole; ±: of the mean; hole to hole: sd of one hole's steady "
        "rate. "
        "Where few holes tell, the figures lean on usual ones.";
    return table;
}

}  // namespace selvage::sheets
