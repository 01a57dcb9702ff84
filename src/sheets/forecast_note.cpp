#include "sheets/forecast_note.h"

#include "base/text.h"
#include "drawing/clipping.h"
#include "sheets/call_and_stop.h"
#include "sheets/label_text.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <string>

namespace selvage::sheets {

namespace {

constexpr double row_height = 4.3, heading_height = 6.2, head_height = 7.4, corner_gap = 6.0, column_gap = 4.0, foot_height = 5.2;
constexpr std::size_t rows_most = 8;
constexpr double foot_leading = 3.4;

// Signs of the columns of call and stop depth, explained at the foot where they stand.
const std::string not_reached = "–", goes_on = "on", past_end = "*";

struct NoteColumn {
    std::string head, unit;
    std::vector<std::string> cells;
    bool left = false;
    double width = 0.0;
};

std::string median_of(const numerics::NormalMixture& log_value, double per_unit, const std::string& unit) {
    if (log_value.empty()) return "";
    const double value = std::exp(log_value.quantile(0.5)) / per_unit;
    return unit.empty() ? base::fixed(value, 1) : grade_figure(value, unit);
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
    for (const forecast::Pierce* pierce : pierces) {
        std::vector<std::string> cells{
            pierce->hole, length_figure(pierce->depth, frame, 0),
            length_figure(pierce->depth_p10, frame, 0) + "–" + length_figure(pierce->depth_p90, frame, 0),
            base::fixed(pierce->presence, 2), median_of(pierce->log_thickness, base::metres_per(frame.unit), "")};
        if (classes.any)
            cells.push_back(classes.analyte < pierce->log_grades.size()
                                ? median_of(pierce->log_grades[classes.analyte], 1.0, grade_unit)
                                : "");
        const CallAndStop rule = call_and_stop(*pierce, results);
        cells.push_back(rule.reached ? length_figure(rule.call, frame, 0) : not_reached);
        cells.push_back(!rule.reached              ? not_reached
                        : !rule.goes_on_to.empty() ? goes_on
                                                   : length_figure(rule.stop, frame, 0) + (rule.past_end ? past_end : ""));
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

bool is_free(const Box& box, const std::vector<Box>& boxes, const std::vector<drawing::Segment>& lines) {
    const Box with_air = drawing::grown(box, 3.0);
    return std::none_of(boxes.begin(), boxes.end(), [&](const Box& other) { return drawing::overlap(with_air, other); }) &&
           std::none_of(lines.begin(), lines.end(),
                        [&](const drawing::Segment& line) { return drawing::touches(line, with_air); });
}

// What stands under the rows.
std::vector<std::string> foot_of(const std::vector<const forecast::Pierce*>& pierces, const Results& results) {
    std::vector<std::string> foot{"planned positions only; TW and grade: medians, if the vein is there"};
    bool short_ones = false, further = false, beyond = false;
    for (const forecast::Pierce* pierce : pierces) {
        const CallAndStop rule = call_and_stop(*pierce, results);
        short_ones = short_ones || !rule.reached;
        further = further || (rule.reached && !rule.goes_on_to.empty());
        beyond = beyond || (rule.reached && rule.past_end);
    }
    if (short_ones) foot.push_back(not_reached + "  the hole as planned ends before this vein");
    if (further) foot.push_back(goes_on + "  goes on to a further vein");
    if (beyond) foot.push_back(past_end + "  past the hole's planned end");
    return foot;
}

Marks marks_of(const std::vector<NoteColumn>& columns, const std::vector<std::string>& foot, const Box& box, const Tools& tools) {
    const drawing::TextLook& head = tools.style.text("table_head");
    Marks marks{line_of({{box.left, box.top}, {box.right, box.top}}, tools.style.line("planned_rule")),
                words({box.left, box.top - 4.4}, "What the next holes should meet", tools.style.text("planned_heading"))};
    const double first = box.top - heading_height - head_height;
    double x = box.left;
    for (const NoteColumn& column : columns) {
        const double at = column.left ? x : x + column.width;
        const drawing::Anchor anchor = column.left ? drawing::Anchor::left : drawing::Anchor::right;
        marks.push_back(words({at, box.top - heading_height - 2.6}, column.head, head, anchor));
        if (!column.unit.empty()) marks.push_back(words({at, box.top - heading_height - 5.7}, column.unit, head, anchor));
        double base = first - 3.2;
        for (const std::string& cell : column.cells) {
            marks.push_back(words({at, base}, cell, tools.style.text(column.left ? "table_strong" : "table_text"), anchor));
            base -= row_height;
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
    const double height = heading_height + head_height + row_height * static_cast<double>(pierces.size()) + foot_height +
                          foot_leading * static_cast<double>(foot_lines.size() - 1);
    const double left = window.left + corner_gap, right = window.right - corner_gap - width;
    const double foot = window.bottom + corner_gap, top = window.top - corner_gap - height;
    for (const Point& corner : {Point{left, foot}, Point{right, foot}, Point{left, top}, Point{right, top}}) {
        const Box box{corner.x, corner.y, corner.x + width, corner.y + height};
        if (is_free(box, taken_boxes, taken_lines)) return ForecastNote{marks_of(columns, foot_lines, box, tools), box};
    }
    return std::nullopt;
}

}  // namespace selvage::sheets
