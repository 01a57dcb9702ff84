#include "sheets/card_depth_line.h"

#include "base/text.h"
#include "sheets/card_depth_dangers.h"
#include "sheets/card_depth_marks.h"
#include "sheets/flag_words.h"
#include "sheets/forecast_table.h"
#include "sheets/label_text.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace selvage::sheets {

namespace {

// mm over the axis: bars of the veins' ranges, over its figures, and the veins' words; under its labels: dangers.
constexpr double bar_over = 5.2, bar_half = 2.3, words_over = 12.4, words_step = 5.4;
constexpr double caption_height = 10.2;
constexpr double axis_left_air = 8.0, axis_right_air = 9.0;
constexpr double words_gap = 5.0;
constexpr std::size_t most_veins = 3;

// The forecasts that the line shows: those that the hole reaches, else the first.
std::vector<VeinAhead> shown(const CardFacts& facts) {
    std::vector<VeinAhead> all;
    for (const VeinAhead& ahead : facts.veins)
        if (is_within_reach(ahead) && all.size() < most_veins) all.push_back(ahead);
    if (all.empty() && !facts.veins.empty()) all.push_back(facts.veins.front());
    return all;
}

// Those with a bar: a piece that the hole cannot get to has none beside others.
std::vector<const forecast::Pierce*> bars_of(const std::vector<VeinAhead>& veins) {
    std::vector<const forecast::Pierce*> bars;
    for (const VeinAhead& ahead : veins)
        for (const forecast::Pierce* piece : ahead.pieces)
            if (is_within_reach(*piece) || !is_within_reach(ahead)) bars.push_back(piece);
    return bars;
}

// "likely at 221 m" as the sheets say it, in lines, the first with the vein's name; its range stands with the key depths.
std::vector<std::string> lines_of(const VeinAhead& ahead, const base::MapFrame& map) {
    std::vector<std::string> lines = ahead_lines(ahead, map);
    lines.erase(
        std::remove_if(lines.begin(), lines.end(), [](const std::string& line) { return line.rfind("between ", 0) == 0; }),
        lines.end());
    lines.front() = ahead.vein + ": " + lines.front();
    if (may_pass_by(ahead.likeliest())) lines.front() += ", " + flag_words("nearest-vein");
    return lines;
}

// Of the axis under the part's top, mm.
double axis_down(const std::vector<VeinAhead>& veins, const base::MapFrame& map) {
    std::size_t most = 1;
    for (const VeinAhead& ahead : veins) most = std::max(most, lines_of(ahead, map).size());
    return caption_height + words_step * static_cast<double>(most - 1) + words_over;
}

void draw_bars(CardPage& page, const std::vector<const forecast::Pierce*>& bars, const DepthScale& scale, double axis,
               const Tools& tools) {
    for (const forecast::Pierce* pierce : bars) {
        const double x = scale.x(pierce->depth), low = std::min(scale.x(pierce->depth_p10), x - 1.0);
        const double high = std::max(scale.x(pierce->depth_p90), x + 1.0), bottom = axis + bar_over;
        page.draw({box_outline({low, bottom, high, bottom + 2.0 * bar_half}, tools.style.line("planned_edge")),
                   line_of({{x, bottom - 0.8}, {x, bottom + 2.0 * bar_half + 0.8}}, tools.style.line("planned_rule"))});
    }
}

void write_veins(CardPage& page, const std::vector<VeinAhead>& veins, const DepthScale& scale, double axis_at,
                 const base::MapFrame& map) {
    std::vector<std::vector<std::string>> lines;
    std::vector<double> widths, centres;
    double total = 0.0;
    for (const VeinAhead& ahead : veins) {
        lines.push_back(lines_of(ahead, map));
        double width = page.width_of(lines.back().front(), "card_planned");
        for (std::size_t i = 1; i < lines.back().size(); ++i)
            width = std::max(width, page.width_of(lines.back()[i], "card_range"));
        widths.push_back(width);
        total += width + 5.0;
        centres.push_back(scale.x(ahead.likeliest().depth));
    }
    const double shrink = std::min(1.0, (page.width() + 5.0) / std::max(1.0, total));
    for (double& width : widths) width *= shrink;
    keep_apart(centres, widths, page.left(), page.right(), words_gap);
    for (std::size_t i = 0; i < veins.size(); ++i) {
        double down = axis_at - words_over - words_step * static_cast<double>(lines[i].size() - 1);
        for (std::size_t k = 0; k < lines[i].size(); ++k, down += words_step)
            page.write(centres[i], down, lines[i][k], k == 0 ? "card_planned" : "card_range", drawing::Anchor::centre,
                       widths[i] + 0.2, forecast_row_destination(veins[i].hole, veins[i].vein));
    }
}

struct LineLayout {
    std::vector<VeinAhead> veins;
    std::vector<DepthMark> marks;
    std::vector<DangerPlace> dangers;
    DepthScale scale;
    double axis_at = 0.0;  // mm under the part's top

    double height() const { return axis_at + std::max(marks_depth(marks), dangers_depth(dangers, marks_depth(marks))) + 2.0; }
};

LineLayout line_layout(const CardFacts& facts, const Results& results, const Tools& tools) {
    LineLayout layout;
    layout.veins = shown(facts);
    layout.axis_at = axis_down(layout.veins, results.records.frame);
    layout.scale = {CardPage::text_left + axis_left_air, CardPage::text_right - axis_right_air, facts.path->end_depth};
    for (const forecast::Pierce* pierce : bars_of(layout.veins)) layout.scale.end = std::max(layout.scale.end, pierce->depth_p90);
    for (const planning::Danger& danger : facts.dangers) layout.scale.end = std::max(layout.scale.end, danger.to);
    layout.marks = depth_marks(facts, results, layout.veins, layout.scale, tools);
    layout.dangers = danger_places(facts, layout.marks, layout.scale);
    return layout;
}

}  // namespace

double depth_line_height(const CardFacts& facts, const Results& results, const Tools& tools) {
    return line_layout(facts, results, tools).height();
}

void draw_depth_line(CardPage& page, const CardFacts& facts, const Results& results, const Tools& tools) {
    const base::MapFrame& map = results.records.frame;
    const LineLayout layout = line_layout(facts, results, tools);
    const double axis = page.top() - layout.axis_at;
    page.write(page.left(), 4.6,
               "What it should meet, by depth down the hole, " + std::string(base::symbol_of(map.unit)) +
                   (layout.scale.end > facts.path->end_depth + beyond_plan ? "; dashed: past its planned end" : ""),
               "card_caption");
    write_veins(page, layout.veins, layout.scale, layout.axis_at, map);
    draw_bars(page, bars_of(layout.veins), layout.scale, axis, tools);
    draw_depth_marks(page, layout.marks, axis, tools);
    draw_depth_axis(page, facts, layout.scale, axis, map, tools);
    draw_dangers(page, facts, layout.dangers, layout.scale, axis, marks_depth(layout.marks), tools);
}

}  // namespace selvage::sheets
