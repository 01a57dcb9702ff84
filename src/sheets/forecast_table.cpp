#include "sheets/forecast_table.h"

#include "base/text.h"
#include "sheets/card_facts.h"
#include "sheets/flag_words.h"
#include "sheets/label_text.h"
#include "sheets/vein_ahead.h"

#include <algorithm>
#include <cctype>
#include <cmath>
#include <cstddef>
#include <optional>
#include <utility>

namespace selvage::sheets {

namespace {

constexpr double tenth = 0.1, half = 0.5, nine_tenths = 0.9;

const tables::Collar* collar_of(const Results& results, const std::string& hole) {
    for (const tables::Collar& collar : results.records.collars)
        if (collar.hole == hole) return &collar;
    return nullptr;
}

// Decimals of a grade and of its range, by its median: whole from 10 on where it is a weight by weight, else two figures; other
// units three.
int grade_decimals(double median, const std::string& unit) {
    if (is_by_weight(unit) && median >= 9.95) return 0;
    const int figures = is_by_weight(unit) ? 2 : 3;
    return median > 0.0 ? std::clamp(figures - 1 - static_cast<int>(std::floor(std::log10(median))), 0, 3) : 0;
}

// Median and the range of 8 in 10 of a positive quantity given as the mixture of its logarithm, all to the median's decimals.
std::vector<std::string> three_figures(const numerics::NormalMixture& log_value, double per_unit, const std::string& unit) {
    if (log_value.empty()) return {"", "", ""};
    const auto value = [&](double share) { return std::exp(log_value.quantile(share)) / per_unit; };
    const int decimals = unit.empty() ? 2 : grade_decimals(value(half), unit);
    std::vector<std::string> figures;
    for (const double share : {half, tenth, nine_tenths}) figures.push_back(base::fixed(value(share), decimals));
    return figures;
}

std::vector<TableColumn> columns_of(const Results& results, const GradeClasses& classes) {
    const std::string unit = base::symbol_of(results.project.length_unit);
    std::vector<TableColumn> columns{{"Hole", "", Cells::words, true},
                                     {"State", "", Cells::words, false},
                                     {"Vein", "", Cells::words, false},
                                     {"Block", "", Cells::words, false},
                                     {"Vein at", unit, Cells::figures, true},
                                     {"from", "1 in 10", Cells::figures, false},
                                     {"to", "9 in 10", Cells::figures, false},
                                     {"Chance", "to cross", Cells::figures, false, 0.0, true},
                                     {"Chance", "vein if so", Cells::figures, false, 0.0, true},
                                     {"Chance", "there", Cells::figures, true},
                                     {"TW", unit, Cells::figures, true},
                                     {"from", "1 in 10", Cells::figures, false, 0.0, true},
                                     {"to", "9 in 10", Cells::figures, false, 0.0, true}};
    if (!has_blocks(results.veins))
        columns.erase(std::find_if(columns.begin(), columns.end(), [](const TableColumn& c) { return c.head == "Block"; }));
    if (classes.any) {
        const tables::Analyte& analyte = results.records.analytes[classes.analyte];
        columns.push_back({analyte.element, analyte.unit, Cells::figures, true});
        columns.push_back({"from", "1 in 10", Cells::figures, false, 0.0, true});
        columns.push_back({"to", "9 in 10", Cells::figures, false, 0.0, true});
    }
    columns.push_back({"Angle", "°", Cells::figures, false});
    columns.push_back({"Call at", unit, Cells::figures, true});
    columns.push_back({"Stop at", unit, Cells::figures, true});
    columns.push_back({"Length", unit, Cells::figures, false, 0.0, true});
    columns.push_back({"Chance", "to meet", Cells::figures, false, 0.0, true});
    for (const char* axis : {"East", "North", "Elevation"}) columns.push_back({axis, unit, Cells::figures, false, 0.0, true});
    columns.push_back({"Section", "", Cells::words, false});
    columns.push_back({"Remarks", "", Cells::words, false});
    return columns;
}

// Of a vein with several pieces the words under the rows tell what is of all of them; the faults ahead of any stand in its first
// row.
std::string remarks_of(const forecast::Pierce& pierce, const VeinAhead& ahead, const CallAndStop& rule, const Results& results) {
    std::string remarks;
    const auto add = [&remarks](const std::string& words) { remarks += (remarks.empty() ? "" : ", ") + words; };
    if (!rule.reached) add("ends before the vein");
    if (rule.reached && !is_within_reach(pierce)) add("ends before it here");
    if (&pierce == ahead.pieces.front())
        for (const faults::FaultAhead& fault : faults_on_the_way(ahead, results))
            add(fault_in_short(fault, results.records.frame));
    for (const std::string& flag : pierce.flags) add(flag_words(flag));
    return remarks;
}

// What is of the whole vein ahead stands in the first row.
TableRow figures_row(const forecast::Pierce& pierce, const VeinAhead& ahead, const Results& results, const GradeClasses& classes,
                     const SectionSet& sections) {
    const base::MapFrame& frame = results.records.frame;
    const tables::Collar* collar = collar_of(results, pierce.hole);
    const Eigen::Vector3d map = frame.map_from_project(pierce.point);
    const std::optional<std::size_t> section = section_of(sections, pierce.point);
    const std::string section_name = section ? sections.sections[*section].name : "";
    const std::string link = section ? destination_of_sheet("cross-section", section_name) : "";
    TableRow row;
    row.destination = forecast_row_destination(pierce.hole, pierce.vein);
    const auto add = [&row](std::string text, std::string to = {}) { row.cells.push_back({std::move(text), std::move(to)}); };
    add(pierce.hole, card_destination(results, pierce.hole));
    add(collar != nullptr && collar->status == tables::HoleStatus::active ? "active" : "planned");
    add(pierce.vein);
    if (has_blocks(results.veins)) add(pierce.crossing.block);
    for (const double depth : {pierce.depth, pierce.depth_p10, pierce.depth_p90}) add(length_figure(depth, frame));
    add(chance_text(pierce.crossing.chance));
    add(chance_text(pierce.presence));
    add(chance_text(there_chance(pierce)));
    for (std::string& figure : three_figures(pierce.log_thickness, base::metres_per(frame.unit), "")) add(std::move(figure));
    if (classes.any) {
        const numerics::NormalMixture log_grade =
            classes.analyte < pierce.log_grades.size() ? pierce.log_grades[classes.analyte] : numerics::NormalMixture{};
        for (std::string& figure : three_figures(log_grade, 1.0, results.records.analytes[classes.analyte].unit))
            add(std::move(figure));
    }
    add(base::fixed(pierce.angle.degrees(), 0));
    const CallAndStop rule = call_and_stop(ahead, results);
    const bool orders = rule.reached && &pierce == ahead.pieces.front();
    add(orders ? length_figure(rule.call, frame, 0) : "");
    add(orders ? length_figure(rule.ask(), frame, 0) : "");
    add(collar != nullptr ? length_figure(collar->depth, frame, 0) : "");
    add(chance_text(chance_to_meet(pierce)));
    for (const double coordinate : {map.x(), map.y(), map.z()}) add(spaced_thousands(coordinate));
    add(section_name, link);
    add(remarks_of(pierce, ahead, rule, results));
    return row;
}

TableRow words_row(const VeinAhead& ahead, const Results& results, std::size_t columns) {
    const base::MapFrame& frame = results.records.frame;
    TableRow row;
    row.joined = true;
    row.cells.assign(columns, {});
    CallAndStop rule = call_and_stop(ahead, results);
    rule.faults = further_faults(ahead, results);
    std::string orders = call_and_stop_words(rule, frame);
    if (!orders.empty()) orders.front() = static_cast<char>(std::toupper(static_cast<unsigned char>(orders.front())));
    row.cells[1] = {ahead.vein + " " + ahead_words(ahead, frame) + "." + (orders.empty() ? "" : " " + orders + "."), "",
                    columns - 1};
    return row;
}

}  // namespace

std::string forecast_row_destination(const std::string& hole, const std::string& vein) {
    return "forecast " + hole + " | " + vein;
}

TypesetTable forecast_table(const Results& results, const GradeClasses& classes, const SectionSet& sections) {
    TypesetTable table;
    table.heading =
        "Forecasts: where planned and active holes should meet a vein (depths down the hole), and what they should find there if "
        "it is "
        "there";
    table.columns = columns_of(results, classes);
    for (const VeinAhead& ahead : veins_ahead(results.pierces)) {
        for (const forecast::Pierce* piece : ahead.pieces) {
            table.rows.push_back(figures_row(*piece, ahead, results, classes, sections));
            table.rows.back().rule_above = piece == ahead.pieces.front();
            table.rows.back().joined = !table.rows.back().rule_above;
        }
        table.rows.push_back(words_row(ahead, results, table.columns.size()));
    }
    const std::size_t count = results.pierces.size();
    table.end_words = std::to_string(count) + (count == 1 ? " forecast" : " forecasts") +
                      ": medians, with the values that 1 and 9 holes of 10 stay under; planned or foretold positions only.";
    return table;
}

}  // namespace selvage::sheets
