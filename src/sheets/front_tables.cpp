#include "base/text.h"
#include "sheets/forecast_table.h"
#include "sheets/front_words.h"
#include "sheets/intercept_table.h"
#include "sheets/label_text.h"
#include "sheets/log_records.h"
#include "sheets/section_content.h"
#include "sheets/vein_ahead.h"

#include <algorithm>
#include <map>
#include <optional>
#include <string>
#include <utility>

namespace selvage::sheets {

namespace {

constexpr double words_room = 62.0;  // mm, at the right of the next holes' figures: their words run under all of it

std::string range_words(double depth, double p10, double p90, const base::MapFrame& frame) {
    const int decimals = base::fixed(frame.length(p10), 0) == base::fixed(frame.length(p90), 0) ? 1 : 0;
    return length_figure(depth, frame, decimals) + " (" + length_figure(p10, frame, decimals) + "–" +
           length_figure(p90, frame, decimals) + ")";
}

// What was expected of a result: by an earlier pack, else by the other holes as the model takes them now.
struct Expected {
    double depth = 0.0, p10 = 0.0, p90 = 0.0;
    std::string words;
};
// "nearest hit 6 m" of the same vein: the word of the other data is no test where one of them lies beside the result.
std::string nearest_words(const VeinResult& result, const Results& results) {
    std::optional<double> nearest;
    const Eigen::Vector3d& point = result.hit != nullptr ? result.hit->point : result.none->point;
    for (const intercepts::Intercept& other : results.intercepts.met)
        if (&other != result.hit && other.vein == result.vein)
            nearest = std::min(nearest.value_or((other.point - point).norm()), (other.point - point).norm());
    return nearest ? ", nearest hit " + length_text(*nearest, results.records.frame, 0) : "";
}

std::optional<Expected> expected_of(const VeinResult& result, const Results& results) {
    const base::MapFrame& frame = results.records.frame;
    const auto made = [&](double depth, double p10, double p90, const std::string& by) {
        return Expected{depth, p10, p90, range_words(depth, p10, p90, frame) + by};
    };
    if (result.said)
        return made(result.said->depth, result.said->depth_p10, result.said->depth_p90,
                    ", chance " + chance_text(result.said->presence) + ", pack of " +
                        (result.said->date.empty() ? std::string("no date") : result.said->date));
    if (result.fit != nullptr)
        return made(result.fit->predicted_depth, result.fit->depth_p10, result.fit->depth_p90, nearest_words(result, results));
    if (result.none != nullptr && result.none->depth_p90 > result.none->depth_p10)
        return made(result.none->depth, result.none->depth_p10, result.none->depth_p90, nearest_words(result, results));
    return std::nullopt;
}

std::string result_words(const VeinResult& result, const Results& results, const GradeClasses& classes) {
    if (result.none != nullptr) return no_vein_label(*result.none, results.records.frame);
    std::string words = result.hit->hole.empty() ? "" : hit_label(*result.hit, results.records, classes.analyte);
    if (const std::string doubt = doubt_words(*result.hit); !doubt.empty()) words += " (" + doubt + ")";
    return result.assays_came ? words + ", assays came" : words;
}

TableRow came_row(const VeinResult& result, const Results& results, const GradeClasses& classes, const SectionSet& sections,
                  const std::map<std::string, std::string>& logs) {
    const base::MapFrame& frame = results.records.frame;
    const std::optional<Expected> expected = expected_of(result, results);
    const Eigen::Vector3d& point = result.hit != nullptr ? result.hit->point : result.none->point;
    const std::optional<std::size_t> section = section_of(sections, point);
    const std::string section_name = section ? sections.sections[*section].name : "";
    const std::string& hole = result.collar->hole;
    const auto log = logs.find(hole);
    const bool met = result.hit != nullptr, compared = met && expected;
    const double off = compared ? result.depth() - expected->depth : 0.0;
    const bool held = compared && result.depth() >= expected->p10 && result.depth() <= expected->p90;
    TableRow row;
    row.cells = {{hole, log == logs.end() ? "" : log->second},
                 {result.vein, intercept_row_destination(hole, result.vein)},
                 {expected ? expected->words : "nothing on record"},
                 {met ? length_figure(result.depth(), frame) : ""},
                 {compared ? signed_length(off, frame) : ""},
                 {!compared ? ""
                  : held    ? "held"
                            : "not"},
                 {result_words(result, results, classes)},
                 {section_name, section ? destination_of_sheet("cross-section", section_name) : ""},
                 {result.date}};
    return row;
}

std::string came_heading(const News& news) {
    if (!news.period) return "Last results of the collar table: without dates, what is new cannot be told";
    return news.results.empty() ? "Nothing new came in. The latest results before" : "What came in, beside what was said before";
}

}  // namespace

std::vector<NextPierce> next_pierces(const Results& results) {
    std::vector<NextPierce> all;
    for (VeinAhead& ahead : veins_ahead(results.pierces)) {
        if (!is_within_reach(ahead)) continue;
        const std::size_t number = path_number(results, ahead.hole);
        if (number == results.paths.size()) continue;
        const paths::Path& path = results.paths[number];
        const bool active = path.status == tables::HoleStatus::active;
        const double to_call = call_and_stop(ahead, results).call - path.drilled_depth;
        all.push_back({std::move(ahead), to_call, path.end_depth, active});
    }
    std::stable_sort(all.begin(), all.end(), [](const NextPierce& a, const NextPierce& b) {
        if (a.active != b.active) return a.active;
        return a.active && a.to_call < b.to_call;
    });
    return all;
}

TypesetTable came_table(const News& news, const Results& results, const GradeClasses& classes, const SectionSet& sections) {
    const std::string unit = base::symbol_of(results.records.frame.unit);
    TypesetTable table;
    table.heading = came_heading(news);
    table.columns = {{"Hole", "", Cells::words, true},
                     {"Vein", "", Cells::words, false},
                     {"Said: vein at", unit + ", 8 in 10", Cells::words, false},
                     {"Came at", unit, Cells::figures, true},
                     {"Off by", unit, Cells::figures, false},
                     {"Range", "", Cells::words, false},
                     {"Result", "", Cells::words, true},
                     {"Sheet", "", Cells::words, false}};
    if (news.period) table.columns.push_back({"Date", "", Cells::words, false});
    const std::map<std::string, std::string> logs = log_destinations(results);
    bool by_pack = false, by_others = false;
    for (const VeinResult& result : told_results(news)) {
        by_pack = by_pack || result.said.has_value();
        by_others = by_others || !result.said;
        table.rows.push_back(came_row(result, results, classes, sections, logs));
    }
    if (table.rows.empty()) {
        TypesetTable none;
        none.heading = "What came in";
        none.columns = {{"", "", Cells::words, false}};
        none.rows = {{{{"No hole has met a vein or passed where one should be."}}, "", false, false}};
        return none;
    }
    table.end_words = !by_others ? ""
                                 : std::string(by_pack ? "Where" : "No forecast of these is on record:") +
                                       (by_pack ? " none is on record, what" : " what") +
                                       " the other data say, worked out afterwards; a weak test where a hit is near.";
    return table;
}

TypesetTable next_table(const Results& results) {
    const base::MapFrame& frame = results.records.frame;
    const std::string unit = base::symbol_of(frame.unit);
    TypesetTable table;
    table.heading = "Next to meet a vein";
    table.columns = {{"Hole", "", Cells::words, true},         {"State", "", Cells::words, false},
                     {"Vein", "", Cells::words, false},        {"Call at", unit, Cells::figures, true},
                     {"Stop at", unit, Cells::figures, false}, {"Length", unit, Cells::figures, false},
                     {"", "", Cells::words, false, words_room}};
    for (const NextPierce& next : next_pierces(results)) {
        const CallAndStop rule = call_and_stop(next.ahead, results);
        const std::string remark = !rule.goes_on_to.empty() ? ask_words(rule, frame)
                                   : rule.past_end          ? "its planned end; ask for up to " + length_text(rule.stop, frame, 0)
                                                            : std::string();
        TableRow row;
        row.cells = {{next.ahead.hole, forecast_row_destination(next.ahead.hole, next.ahead.vein)},
                     {!next.active       ? "planned"
                      : next.to_call > 0 ? "active, call in " + length_text(next.to_call, frame, 0)
                                         : "active, past its call"},
                     {next.ahead.vein},
                     {length_figure(rule.call, frame, 0)},
                     {length_figure(rule.ask(), frame, 0)},
                     {length_figure(next.end, frame, 0)},
                     {remark}};
        row.rule_above = true;
        table.rows.push_back(std::move(row));
        TableRow words;
        words.joined = true;
        words.cells.resize(table.columns.size());
        std::string sentence = ahead_words(next.ahead, frame);
        bool is_first = true;
        for (const faults::FaultAhead& fault : further_faults(next.ahead, results)) {
            sentence += (is_first ? "; on the way " : " and ") + fault_in_short(fault, frame);
            is_first = false;
        }
        words.cells[1] = {std::move(sentence), "", table.columns.size() - 1};
        table.rows.push_back(std::move(words));
    }
    if (!table.rows.empty()) return table;
    table.columns = {{"", "", Cells::words, false}};
    table.rows = {{{{"No planned or active hole should meet a vein that is modelled."}}, "", false, false}};
    return table;
}

}  // namespace selvage::sheets
