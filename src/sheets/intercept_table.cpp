#include "sheets/intercept_table.h"

#include "base/text.h"
#include "paths/locate.h"
#include "sheets/cautions.h"
#include "sheets/check_sheet.h"
#include "sheets/flag_words.h"
#include "sheets/label_text.h"
#include "sheets/left_out.h"
#include "sheets/log_records.h"
#include "sheets/no_vein_words.h"
#include "sheets/section_content.h"
#include "sheets/silent_holes.h"
#include "sheets/table_page.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>
#include <set>
#include <tuple>
#include <utility>

namespace selvage::sheets {

namespace {

constexpr std::ptrdiff_t block_column = 2;  // where faults part a vein
constexpr double half_a_place = 0.5;
constexpr std::size_t section_from_end = 2;  // the section's column, before the remarks
constexpr std::size_t analytes_most = 6;     // columns of grades that a page bears beside the rest

// The cut-off's analyte first, then the others in their order.
std::vector<std::size_t> analytes_shown(const Results& results, const GradeClasses& classes) {
    std::vector<std::size_t> shown;
    if (!classes.any) return shown;
    shown.push_back(classes.analyte);
    for (std::size_t i = 0; i < results.records.analytes.size() && shown.size() < analytes_most; ++i)
        if (i != classes.analyte) shown.push_back(i);
    return shown;
}

std::string percent(const std::optional<double>& share) { return share ? base::fixed(100.0 * *share, 0) : ""; }

std::string state_words(const intercepts::Intercept& hit) {
    std::string words = hit.state == tables::PickState::vein ? "" : intercepts::word_of(hit.state);
    for (const std::string& flag : hit.flags) words += (words.empty() ? "" : ", ") + flag_words(flag);
    return words;
}

// As many decimals, `most` at most, as the figures were read to.
int decimals_of(const std::vector<double>& figures, int most) {
    constexpr double same = 1e-6;
    int decimals = 0;
    for (const double figure : figures)
        for (double scaled = figure * std::pow(10.0, decimals); decimals < most && std::abs(scaled - std::round(scaled)) > same;
             scaled *= 10.0)
            ++decimals;
    return decimals;
}

// As many decimals as the laboratories gave an analyte, for all of its column; what is below their limit stands in the records as
// a share of it. Nothing where grades by weight reach 10: their decimals would be more than was measured.
std::optional<int> laboratory_decimals(const Results& results, std::size_t analyte) {
    constexpr int most = 3;
    constexpr double whole_from = 9.95;
    for (const intercepts::Intercept& hit : results.intercepts.met)
        if (is_by_weight(results.records.analytes[analyte].unit) && analyte < hit.grades.size() && hit.grades[analyte] &&
            hit.grades[analyte]->value >= whole_from)
            return std::nullopt;
    std::vector<double> figures;
    for (const tables::Assay& assay : results.records.assays)
        if (analyte < assay.values.size() && assay.values[analyte].value && !assay.values[analyte].below_detection)
            figures.push_back(*assay.values[analyte].value);
    return decimals_of(figures, most);
}

// Where the column has no decimals of its own: two figures at least, but no decimals from 10 on.
int own_decimals(double grade) {
    return grade > 0.0 && grade < 9.95 ? std::max(1, 1 - static_cast<int>(std::floor(std::log10(grade)))) : 0;
}

std::string grade_cell(const std::optional<intercepts::Grade>& grade, const std::string& unit, std::optional<int> decimals) {
    if (!grade) return {};
    if (grade->below_detection) return limit_sign(*grade) + grade_figure(grade->value, unit);
    return limit_sign(*grade) + base::fixed(grade->value, decimals ? *decimals : own_decimals(grade->value));
}

// The first column after hole, vein and block: sentences start there.
std::size_t first_figure(const Results& results) {
    return static_cast<std::size_t>(block_column) + (has_blocks(results.veins) ? 1 : 0);
}

struct SectionLink {
    std::string name, destination;
};

SectionLink section_link(const SectionSet& sections, const Eigen::Vector3d& point) {
    const std::optional<std::size_t> number = section_of(sections, point);
    if (!number) return {};
    const std::string& name = sections.sections[*number].name;
    return {name, destination_of_sheet("cross-section", name)};
}

std::vector<TableColumn> columns_of(const Results& results, const GradeClasses& classes,
                                    const std::vector<std::size_t>& analytes) {
    const std::string unit = base::symbol_of(results.project.length_unit);
    std::vector<TableColumn> columns{{"Hole", "", Cells::words, true},      {"Vein", "", Cells::words, false},
                                     {"From", unit, Cells::figures, false}, {"To", unit, Cells::figures, false},
                                     {"DH", unit, Cells::figures, false},   {"TW", unit, Cells::figures, true},
                                     {"TW ±", unit, Cells::figures, false}, {"TW by", "", Cells::words, false, 0.0, true},
                                     {"Angle", "°", Cells::figures, false}};
    if (has_blocks(results.veins)) columns.insert(columns.begin() + block_column, {"Block", "", Cells::words, false});
    for (const std::size_t analyte : analytes)
        columns.push_back({results.records.analytes[analyte].element, results.records.analytes[analyte].unit, Cells::figures,
                           analyte == classes.analyte, 0.0, analyte != classes.analyte});
    if (classes.any)
        columns.push_back({results.records.analytes[classes.analyte].element + " × TW", classes.unit, Cells::figures, true});
    for (const char* axis : {"East", "North", "Elevation"})
        columns.push_back({axis, unit, Cells::figures, false, 0.0, true, "Place"});
    columns.push_back({"Assays", "", Cells::words, false, 0.0, true});
    columns.push_back({"Assayed", "%", Cells::figures, false, 0.0, true});
    columns.push_back({"Core", "%", Cells::figures, false, 0.0, true});
    columns.push_back({"Section", "", Cells::words, false});
    columns.push_back({"Remarks", "", Cells::words, false});
    return columns;
}

// As the contacts' depths were read.
int depth_decimals(const Results& results) {
    constexpr int most = 2;
    std::vector<double> depths;
    for (const intercepts::Intercept& hit : results.intercepts.met)
        for (const double depth : {hit.from, hit.to}) depths.push_back(results.records.frame.length(depth));
    return decimals_of(depths, most);
}

// The block in which a hit lies; nothing where its vein has one.
std::string block_of(const intercepts::Intercept& hit, const Results& results) {
    const std::size_t number = vein_number(results, hit.vein);
    if (number >= results.veins.size()) return {};
    const veins::Vein& vein = results.veins[number];
    return vein.blocks().name(vein.block_at(hit.point));
}

// Samples of it came back: what has no figure was not assayed for.
bool is_assayed(const intercepts::Intercept& hit) {
    return hit.sampled == intercepts::SampledState::assayed || hit.sampled == intercepts::SampledState::part_assayed;
}

// A hole's name leads to its log, or where it has none to its section.
void lead_to_log(TableRow& row, const std::string& hole, const std::map<std::string, std::string>& logs) {
    if (const auto log = logs.find(hole); log != logs.end()) row.cells[0].link = log->second;
}

TableRow hit_row(const intercepts::Intercept& hit, const Results& results, const GradeClasses& classes,
                 const std::vector<std::size_t>& analytes, const std::vector<std::optional<int>>& of_grades,
                 const SectionSet& sections, int decimals) {
    const base::MapFrame& frame = results.records.frame;
    const SectionLink section = section_link(sections, hit.point);
    const Eigen::Vector3d map = frame.map_from_project(hit.point);
    TableRow row;
    row.destination = intercept_row_destination(hit.hole, hit.vein);
    row.cells = {{hit.hole, section.destination},
                 {hit.vein},
                 {length_figure(hit.from, frame, decimals)},
                 {length_figure(hit.to, frame, decimals)},
                 {length_figure(hit.length(), frame, decimals)},
                 {hit.true_thickness ? length_figure(*hit.true_thickness, frame, 2) : ""},
                 {hit.true_thickness && hit.thickness_sd ? length_figure(*hit.thickness_sd, frame, 2) : ""},
                 {intercepts::word_of(hit.thickness_from)},
                 {hit.angle ? base::fixed(hit.angle->degrees(), 0) : ""}};
    if (has_blocks(results.veins)) row.cells.insert(row.cells.begin() + block_column, {block_of(hit, results)});
    const std::string not_assayed =
        hit.sampled == intercepts::SampledState::not_sampled ? not_assayed_words(hit, results.records, classes.analyte) : "";
    const std::string no_grade =
        hit.sampled == intercepts::SampledState::pending ? intercepts::word_of(hit.sampled) : not_assayed;
    for (std::size_t i = 0; i < analytes.size(); ++i) {
        const std::size_t analyte = analytes[i];
        const std::string grade = analyte < hit.grades.size()
                                      ? grade_cell(hit.grades[analyte], results.records.analytes[analyte].unit, of_grades[i])
                                      : "";
        row.cells.push_back({!grade.empty()                                    ? grade
                             : analyte == classes.analyte && !no_grade.empty() ? no_grade
                             : is_assayed(hit)                                 ? "n.a."
                                                                               : ""});
    }
    if (classes.any) row.cells.push_back({accumulation_text(hit, classes, frame)});
    for (const double coordinate : {map.x(), map.y(), map.z()}) row.cells.push_back({spaced_thousands(coordinate)});
    row.cells.push_back({not_assayed.empty() ? intercepts::word_of(hit.sampled) : not_assayed});
    row.cells.push_back({percent(hit.sampled_share)});
    row.cells.push_back({percent(hit.recovery)});
    row.cells.push_back({section.name, section.destination});
    row.cells.push_back({state_words(hit)});
    return row;
}

// Where it was due; of a hole that stopped short of it, where no section holds that, the section of the hole's end.
SectionLink section_of_none(const veins::NoVein& none, const Results& results, const SectionSet& sections) {
    const SectionLink due = section_link(sections, none.point);
    const paths::Path* path = paths::path_of(results.paths, none.hole);
    if (!due.name.empty() || path == nullptr || none.reason != veins::NoVeinReason::stopped_short) return due;
    return section_link(sections, paths::position_at(*path, path->end_depth));
}

// No vein is a result: why there is none, and the depth where it should have been or at which the hole stopped before it.
TableRow none_row(const veins::NoVein& none, const std::string& vein, const std::string& block, const Results& results,
                  std::size_t columns, const SectionSet& sections, const drawing::ContentLook& content) {
    const base::MapFrame& frame = results.records.frame;
    const SectionLink section = section_of_none(none, results, sections);
    TableRow row;
    row.destination = intercept_row_destination(none.hole, vein);
    row.cells.assign(columns, {});
    row.cells[0] = {none.hole, section.destination};
    row.cells[1] = {vein};
    std::string words = no_vein_words(none, frame, content);
    for (const intercepts::NoVeinPick& pick : results.intercepts.not_there)
        if (pick.hole == none.hole && pick.vein == vein)
            words += "; looked for at " + depth_range_text(pick.from, pick.to, frame);
    if (content.forecasts && none.depth_p90 > none.depth_p10)
        words += "; 8 holes in 10: " + length_figure(none.depth_p10, frame, 0) + " to " + length_text(none.depth_p90, frame, 0);
    if (content.forecasts && none.is_miss()) words += "; by all the others, chance of a vein " + chance_text(none.presence);
    if (const paths::Path* path = paths::path_of(results.paths, none.hole);
        path != nullptr && none.reason == veins::NoVeinReason::stopped_short)
        words += "; the hole ends at " + length_text(path->end_depth, frame);
    if (has_blocks(results.veins)) row.cells[block_column] = {block};
    const std::size_t first = first_figure(results);
    row.cells[first] = {words, "", columns - section_from_end - first};
    row.cells[columns - section_from_end] = {section.name, section.destination};
    return row;
}

// What an error leaves out: in words over all the figures that it has not.
TableRow left_out_row(const std::string& hole, const std::string& vein, const std::string& words, const Results& results,
                      std::size_t columns) {
    TableRow row;
    row.cells.assign(columns, {});
    row.cells[0] = {hole};
    row.cells[1] = {vein};
    const std::size_t first = first_figure(results);
    row.cells[first] = {words + " (see the checks)", destination_of_sheet(check_sheet_kind, ""), columns - first};
    return row;
}

struct RowOfHole {
    double collar = 0.0;  // its place in the collar table; of a hole that is left out half a place before the next
    std::size_t vein = 0;
    double depth = 0.0;
    TableRow row;
};

// Where a row that is gone from the collar table would stand.
double place_of_row(const Results& results, std::size_t row) {
    const std::vector<tables::Collar>& collars = results.records.collars;
    const auto next = std::find_if(collars.begin(), collars.end(), [&](const auto& collar) { return collar.origin.row > row; });
    return static_cast<double>(next - collars.begin()) - half_a_place;
}

std::vector<TableRow> rows_of(const Results& results, const GradeClasses& classes, const std::vector<std::size_t>& analytes,
                              std::size_t columns, const SectionSet& sections, const LeftOut& left_out,
                              const drawing::ContentLook& content) {
    std::map<std::string, double> places;
    for (const tables::Collar& collar : results.records.collars) places.emplace(collar.hole, static_cast<double>(places.size()));
    const auto place_of = [&](const std::string& hole) {
        const auto found = places.find(hole);
        return found == places.end() ? static_cast<double>(places.size()) : found->second;
    };
    const int decimals = depth_decimals(results);
    std::vector<std::optional<int>> of_grades;
    of_grades.reserve(analytes.size());
    for (const std::size_t analyte : analytes) of_grades.push_back(laboratory_decimals(results, analyte));
    std::vector<RowOfHole> rows;
    for (const intercepts::Intercept& hit : results.intercepts.met)
        rows.push_back(
            {place_of(hit.hole), 0, hit.middle(), hit_row(hit, results, classes, analytes, of_grades, sections, decimals)});
    for (std::size_t vein = 0; vein < results.veins.size(); ++vein)
        for (const veins::NoVein& none : results.veins[vein].no_vein())
            rows.push_back({place_of(none.hole), vein, none.depth,
                            none_row(none, results.veins[vein].name(), results.veins[vein].blocks().name(none.block), results,
                                     columns, sections, content)});
    for (const LeftOutHole& hole : left_out.holes)
        rows.push_back(
            {place_of_row(results, hole.row), 0, 0.0, left_out_row(hole.hole, "", left_out_words(hole), results, columns)});
    for (const LeftOutPick& pick : left_out.picks)
        rows.push_back({place_of(pick.hole), 0, pick.from.value_or(0.0),
                        left_out_row(pick.hole, pick.vein, left_out_words(pick, results.records.frame), results, columns)});
    const std::map<std::string, std::string> logs = log_destinations(results);
    for (RowOfHole& row : rows) lead_to_log(row.row, row.row.cells[0].text, logs);
    std::stable_sort(rows.begin(), rows.end(), [](const RowOfHole& a, const RowOfHole& b) {
        return std::tie(a.collar, a.depth, a.vein) < std::tie(b.collar, b.depth, b.vein);
    });
    std::vector<TableRow> sorted;
    for (std::size_t i = 0; i < rows.size(); ++i) {
        rows[i].row.rule_above = i > 0 && rows[i].collar != rows[i - 1].collar;
        sorted.push_back(std::move(rows[i].row));
    }
    return sorted;
}

std::vector<std::string> words_used(const Results& results) {
    std::set<std::string> used;
    std::set<tables::PickState> states;
    for (const intercepts::Intercept& hit : results.intercepts.met) {
        used.insert(hit.flags.begin(), hit.flags.end());
        states.insert(hit.state);
    }
    std::vector<std::string> lines;
    for (const tables::PickState state : states)
        if (state != tables::PickState::vein)
            lines.push_back(intercepts::word_of(state) + std::string("\t") + state_meaning(state));
    for (const intercepts::Flag& flag : intercepts::flags())
        if (used.count(flag.word) > 0) lines.push_back(flag_words(flag.word) + "\t" + flag.meaning);
    return lines;
}

std::vector<std::string> how_to_read(bool blocks) {
    std::vector<std::string> lines;
    if (blocks) lines.emplace_back(block_signs);
    for (const char* line :
         {"TW\ttrue thickness, square to the vein", "TW ±\tone standard deviation of TW",
          "TW by\tmodel: the modelled vein's plane; core: oriented contacts; alpha: core axis angle alone",
          "DH\tlength down the hole, from and to at the contacts", "Angle\tbetween hole and vein: 90 is a right-angle hit",
          "Grades\tweighted by length over the whole pick; >: a sample over its laboratory's limit; <: below detection",
          "Assayed\tshare of the pick that is assayed", "Core\tshare of the pick's core recovered",
          "E, N\tthe middle of the pick", "No vein\tat the depth where the model of the other results puts it"})
        lines.emplace_back(line);
    return lines;
}

// Holes that are being drilled and have no row yet: that they have none is no result.
std::vector<std::string> rowless_active(const Results& results, const std::vector<TableRow>& rows) {
    std::vector<std::string> lines;
    for (const paths::Path& path : results.paths) {
        const bool has_row = std::any_of(
            rows.begin(), rows.end(), [&](const TableRow& row) { return !row.cells.empty() && row.cells[0].text == path.hole; });
        if (path.status == tables::HoleStatus::active && !has_row)
            lines.push_back(path.hole + "\t" + active_words(path, results.records.frame) + ", no result yet");
    }
    return lines;
}

std::vector<std::string> cautions_of(const Results& results) {
    std::vector<std::string> cautions{working_document_caution()};
    if (!results.veins.empty()) cautions.push_back(interpretation_caution(results.events));
    cautions.push_back(thickness_caution());
    return cautions;
}

// What an error leaves out, without the holes of which nothing tells that they are drilled: they can have no intercept.
LeftOut drilled_left_out(const Results& results, const RunFacts& run) {
    LeftOut left_out = left_out_by_errors(results, run);
    left_out.holes.erase(
        std::remove_if(left_out.holes.begin(), left_out.holes.end(), [](const LeftOutHole& hole) { return !hole.drilled; }),
        left_out.holes.end());
    return left_out;
}

std::string end_words(const TableCounts& counts, const LeftOut& left_out) {
    const auto of = [](std::size_t number, const std::string& one, const std::string& many) {
        return std::to_string(number) + " " + (number == 1 ? one : many);
    };
    const std::size_t errors = left_out.holes.size() + left_out.picks.size();
    return of(counts.intercepts + counts.no_vein + errors, "row", "rows") + ": " +
           of(counts.intercepts, "intercept", "intercepts") + ", " +
           of(counts.no_vein, "hole and vein without one", "holes and veins without one") +
           (errors > 0 ? ", " + std::to_string(errors) + " left out by errors" : "") +
           ". Low and nil results are kept; n.a.: not assayed for.";
}

}  // namespace

std::string intercept_row_destination(const std::string& hole, const std::string& vein) { return "row " + hole + " | " + vein; }

TableCounts intercept_table_counts(const Results& results) {
    TableCounts counts;
    counts.intercepts = results.intercepts.met.size();
    for (const veins::Vein& vein : results.veins) counts.no_vein += vein.no_vein().size();
    return counts;
}

std::vector<drawing::Sheet> intercept_table(const Results& results, const RunFacts& run, const GradeClasses& classes,
                                            const SectionSet& sections, const Tools& tools) {
    const std::vector<std::size_t> analytes = analytes_shown(results, classes);
    TypesetTable table;
    table.columns = columns_of(results, classes, analytes);
    const LeftOut left_out = drilled_left_out(results, run);
    table.rows = rows_of(results, classes, analytes, table.columns.size(), sections, left_out, tools.style.content);
    table.end_words = end_words(intercept_table_counts(results), left_out);

    PageContent page;
    table.written_in = "tables/intercepts.csv";
    page.kind = "intercept-table";
    page.title.title = "Intercept table";
    page.title.subtitle = "hits and misses";
    page.title.identification = "IT";
    page.title.document_type = "intercept table";
    table.heading = "Intercepts in the order of the collar table, then by depth; a hole's name leads to its section";
    page.cautions = cautions_of(results);
    page.side_list = how_to_read(has_blocks(results.veins));
    std::vector<std::string> flags = words_used(results);
    page.side_list.insert(page.side_list.end(), flags.begin(), flags.end());
    std::vector<std::string> active = rowless_active(results, table.rows);
    page.side_list.insert(page.side_list.end(), active.begin(), active.end());
    page.side_list_heading = "How to read it";
    std::vector<TypesetTable> tables{std::move(table)};
    return table_pages(tables, page, results, run, tools);
}

}  // namespace selvage::sheets
