#include "sheets/forecast_note.h"

#include "base/text.h"
#include "sheets/flag_words.h"
#include "sheets/free_place.h"
#include "sheets/label_text.h"
#include "sheets/vein_ahead.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <string>
#include <utility>

namespace selvage::sheets {

namespace {

constexpr double column_gap = 4.0;  // mm
constexpr std::size_t rows_most = 16;
constexpr double foot_leading = 3.4;

// How far apart its parts stand, mm; set closer where it finds no room else.
struct Spacing {
    double heading, head, row, foot;  // heights
    double from_window, air;
};
constexpr Spacing wide{6.2, 7.4, 4.3, 5.2, 6.0, 3.0}, close{5.6, 6.8, 3.6, 4.6, 2.5, 1.5};

// Signs of the columns of call and stop depth, explained at the foot where they stand.
const std::string not_reached = "–", goes_on = " on", past_end = "*", outside = "†", passes = "‡";

struct NoteColumn {
    std::string head, unit;
    std::vector<std::string> cells;
    bool left = false;
    double width = 0.0;
};

std::optional<double> median_of(const numerics::NormalMixture& log_value) {
    return log_value.empty() ? std::nullopt : std::optional<double>(std::exp(log_value.quantile(0.5)));
}

// "210 (205–215)".
std::string fault_figures(const CallAndStop& rule, const base::MapFrame& frame) {
    std::string figures;
    for (const faults::FaultAhead& fault : rule.faults)
        figures += (figures.empty() ? "" : ", ") + fault_ahead_figures(fault, frame);
    return figures;
}

// Up to the stop. A further piece of a vein is "or" the one above it, whose call and stop hold for both.
std::vector<std::string> cells_of(const forecast::Pierce& piece, const VeinAhead& ahead, const Results& results,
                                  const GradeClasses& classes) {
    const base::MapFrame& frame = results.records.frame;
    const bool first = &piece == ahead.pieces.front(), several = ahead.pieces.size() > 1;
    const std::optional<double> thickness = median_of(piece.log_thickness);
    std::vector<std::string> cells{first ? ahead.hole : "or", length_figure(piece.depth, frame, 0),
                                   length_figure(piece.depth_p10, frame, 0) + "–" + length_figure(piece.depth_p90, frame, 0),
                                   chance_text(several ? chance_among(piece, ahead) : piece.presence) +
                                       (is_beyond_extent(piece) ? outside : "") + (may_pass_by(piece) ? passes : ""),
                                   thickness ? thickness_figure(*thickness, frame) : ""};
    if (classes.any) {
        const std::optional<double> grade =
            classes.analyte < piece.log_grades.size() ? median_of(piece.log_grades[classes.analyte]) : std::nullopt;
        cells.push_back(grade ? grade_figure(*grade, results.records.analytes[classes.analyte].unit) : "");
    }
    const CallAndStop rule = call_and_stop(ahead, results);
    cells.push_back(!first ? "" : rule.reached ? length_figure(rule.call, frame, 0) : not_reached);
    cells.push_back(!first                     ? ""
                    : !rule.reached            ? not_reached
                    : !rule.goes_on_to.empty() ? length_figure(rule.ask(), frame, 0) + goes_on
                                               : length_figure(rule.ask(), frame, 0) + (rule.past_end ? past_end : ""));
    return cells;
}

std::vector<NoteColumn> columns_of(const std::vector<const forecast::Pierce*>& pierces, const Results& results,
                                   const GradeClasses& classes, const Tools& tools) {
    const base::MapFrame& frame = results.records.frame;
    const std::string unit = base::symbol_of(frame.unit);
    const std::string metal = classes.any ? results.records.analytes[classes.analyte].element : "";
    const std::string grade_unit = classes.any ? results.records.analytes[classes.analyte].unit : "";
    std::vector<NoteColumn> columns{{"hole", "", {}, true, 0.0},
                                    {"vein at", unit, {}, false, 0.0},
                                    {"8 in 10", unit, {}, false, 0.0},
                                    {"chance", "", {}, false, 0.0},
                                    {"TW", unit, {}, false, 0.0}};
    if (classes.any) columns.push_back({metal, grade_unit, {}, false, 0.0});
    columns.push_back({"call at", unit, {}, false, 0.0});
    columns.push_back({"stop at", unit, {}, false, 0.0});
    const std::vector<VeinAhead> all = veins_ahead(pierces, results.pierces);
    const auto crosses = [&](const VeinAhead& ahead) { return !call_and_stop(ahead, results).faults.empty(); };
    const bool any_fault = std::any_of(all.begin(), all.end(), crosses);
    if (any_fault) columns.push_back({"fault at", unit, {}, false, 0.0});
    for (const VeinAhead& ahead : all)
        for (const forecast::Pierce* piece : ahead.pieces) {
            std::vector<std::string> cells = cells_of(*piece, ahead, results, classes);
            if (any_fault)
                cells.push_back(piece == ahead.pieces.front() ? fault_figures(call_and_stop(ahead, results), frame) : "");
            for (std::size_t i = 0; i < columns.size(); ++i) columns[i].cells.push_back(cells[i]);
        }
    for (NoteColumn& column : columns) {
        column.width = std::max(drawing::text_width_mm(tools.fonts, tools.style.text("table_head"), column.head),
                                drawing::text_width_mm(tools.fonts, tools.style.text("table_head"), column.unit));
        for (const std::string& cell : column.cells)
            column.width = std::max(column.width, drawing::text_width_mm(tools.fonts, tools.style.text("table_strong"), cell));
    }
    return columns;
}

// What stands under the rows.
std::vector<std::string> foot_of(const std::vector<const forecast::Pierce*>& pierces, const Results& results) {
    std::vector<std::string> foot{"planned or foretold positions only; TW and grade: medians, if the vein is there"};
    bool short_ones = false, further = false, beyond = false, several = false, off_model = false, passed = false, perhaps = false;
    std::vector<std::string> faults;
    for (const VeinAhead& ahead : veins_ahead(pierces, results.pierces)) {
        const CallAndStop rule = call_and_stop(ahead, results);
        short_ones = short_ones || !rule.reached;
        further = further || (rule.reached && !rule.goes_on_to.empty());
        beyond = beyond || (rule.reached && rule.past_end && rule.goes_on_to.empty());
        several = several || ahead.pieces.size() > 1;
        for (const forecast::Pierce* piece : ahead.pieces) {
            off_model = off_model || is_beyond_extent(*piece);
            passed = passed || may_pass_by(*piece);
        }
        for (const faults::FaultAhead& fault : rule.faults) {
            if (std::find(faults.begin(), faults.end(), fault.name) == faults.end()) faults.push_back(fault.name);
            perhaps = perhaps || !fault.crosses;
        }
    }
    if (!faults.empty()) {
        std::string line = "fault at: on its way there it crosses ";
        for (std::size_t i = 0; i < faults.size(); ++i) line += (i == 0 ? "" : ", ") + faults[i];
        foot.push_back(line + " (between, in 8 holes of 10)" + (perhaps ? "; a range alone: perhaps" : ""));
    }
    if (short_ones) foot.push_back(not_reached + "  the hole as planned ends before this vein");
    if (further) foot.push_back(goes_on.substr(1) + "  if not met ask there, else go on to a further vein");
    if (beyond) foot.push_back(past_end + "  its planned end; the vein may lie deeper");
    if (several) foot.push_back("or  the same vein in another block, with the chance of each");
    if (off_model) foot.push_back(outside + "  " + flag_words("beyond-extent"));
    if (passed) foot.push_back(passes + "  " + flag_words("nearest-vein"));
    return foot;
}

Marks marks_of(const std::vector<NoteColumn>& columns, const std::vector<std::string>& foot, const Box& box,
               const Spacing& spacing, const Tools& tools) {
    const drawing::TextLook& head = tools.style.text("table_head");
    Marks marks{line_of({{box.left, box.top}, {box.right, box.top}}, tools.style.line("planned_rule")),
                words({box.left, box.top - spacing.heading + 1.8}, "What the next holes should meet",
                      tools.style.text("planned_heading"))};
    const double first = box.top - spacing.heading - spacing.head;
    double x = box.left;
    for (const NoteColumn& column : columns) {
        const double at = column.left ? x : x + column.width;
        const drawing::Anchor anchor = column.left ? drawing::Anchor::left : drawing::Anchor::right;
        marks.push_back(words({at, box.top - spacing.heading - 2.4}, column.head, head, anchor));
        if (!column.unit.empty()) marks.push_back(words({at, box.top - spacing.heading - 5.5}, column.unit, head, anchor));
        double base = first - spacing.row + 1.1;
        for (const std::string& cell : column.cells) {
            marks.push_back(words({at, base}, cell, tools.style.text(column.left ? "table_strong" : "table_text"), anchor));
            base -= spacing.row;
        }
        x += column.width + column_gap;
    }
    marks.push_back(line_of({{box.left, first}, {box.right, first}}, tools.style.line("table_row_rule")));
    double y = box.bottom + 1.0 + foot_leading * static_cast<double>(foot.size() - 1);
    for (const std::string& line : foot) {
        marks.push_back(words({box.left, y}, line, tools.style.text("note")));
        y -= foot_leading;
    }
    return marks;
}

}  // namespace

std::optional<ForecastNote> forecast_note(const std::vector<const forecast::Pierce*>& pierces, const Results& results,
                                          const GradeClasses& classes, const Box& window, const std::vector<Box>& taken_boxes,
                                          const std::vector<drawing::Segment>& taken_lines, const Tools& tools) {
    if (pierces.empty() || pierces.size() > rows_most) return std::nullopt;
    const std::vector<NoteColumn> columns = columns_of(pierces, results, classes, tools);
    double width = -column_gap;
    for (const NoteColumn& column : columns) width += column.width + column_gap;
    const std::vector<std::string> foot_lines = foot_of(pierces, results);
    for (const std::string& line : foot_lines)
        width = std::max(width, drawing::text_width_mm(tools.fonts, tools.style.text("note"), line));
    for (const Spacing& spacing : {wide, close}) {
        const double height = spacing.heading + spacing.head + spacing.row * static_cast<double>(columns.front().cells.size()) +
                              spacing.foot + foot_leading * static_cast<double>(foot_lines.size() - 1);
        if (const auto box = free_place(window, width, height, {taken_boxes, taken_lines, spacing.from_window, spacing.air}))
            return ForecastNote{marks_of(columns, foot_lines, *box, spacing, tools), *box};
    }
    return std::nullopt;
}

std::string forecast_note_line(const std::vector<const forecast::Pierce*>& pierces, const Results& results) {
    const base::MapFrame& frame = results.records.frame;
    std::string line;
    for (const VeinAhead& ahead : veins_ahead(pierces, results.pierces)) {
        const CallAndStop rule = call_and_stop(ahead, results);
        line += (line.empty() ? "next holes: " : "; ") + ahead.hole;
        for (const faults::FaultAhead& fault : rule.faults)
            line += (fault.crosses ? " " + fault.name + " at " : " perhaps " + fault.name + " ") +
                    fault_ahead_figures(fault, frame) + ",";
        if (!rule.reached) {
            line += " ends before it" + extent_words(ahead);
            continue;
        }
        line += " call at " + length_figure(rule.call, frame, 0);
        line += !rule.goes_on_to.empty() ? ", " + ask_words(rule, frame)
                : rule.past_end          ? ", planned end " + length_text(*rule.past_end, frame, 0)
                                         : ", stop at " + length_text(rule.stop, frame, 0);
        line += extent_words(ahead);
    }
    return line;
}

}  // namespace selvage::sheets
