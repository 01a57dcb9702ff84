#include "sheets/error_bars.h"

#include "base/text.h"
#include "sheets/forecast_table.h"
#include "sheets/label_text.h"

#include <algorithm>
#include <array>
#include <string>
#include <utility>
#include <vector>

namespace selvage::sheets {

namespace {

constexpr double least_told = 0.05;  // of an error's variance, in words
constexpr std::size_t most_told = 4;
constexpr double least_gain = 0.005;  // of the standard deviation
constexpr std::size_t words_column = 1, sd_column = 4;
constexpr double bar_width = 120.0, sd_width = 60.0, bar_air = 0.45, least_for_figure = 8.0;  // mm

// A figure and its percent sign that no line parts.
constexpr const char* percent_sign = "\u00a0%";

// How a kind of error looks: greys that lie 12 or more of lightness (CIE L*) apart, or marks of their own, so that a copy keeps
// them apart.
struct KindLook {
    veins::ErrorKind kind;
    const char* words;
    double grey;  // share of ink, 0 white
    drawing::PatternMark mark;
};
constexpr std::array<KindLook, 7> kinds{{
    {veins::ErrorKind::deviation, "where the hole will run", 0.0, drawing::PatternMark::slashes},
    {veins::ErrorKind::shape, "shape of the vein between holes", 0.7, drawing::PatternMark::none},
    {veins::ErrorKind::surveys, "surveys and collars", 0.36, drawing::PatternMark::none},
    {veins::ErrorKind::core, "core angles, small waves", 0.16, drawing::PatternMark::dots},
    {veins::ErrorKind::contacts, "depths of the contacts", 0.97, drawing::PatternMark::none},
    {veins::ErrorKind::slips, "slips of the faults", 0.0, drawing::PatternMark::pluses},
    {veins::ErrorKind::settings, "settings of the model", 0.0, drawing::PatternMark::none},
}};

drawing::FillLook fill_of(const KindLook& look, const Tools& tools) {
    drawing::FillLook fill = plain(paled(tools.style.colour("ink"), look.grey));
    fill.pattern.mark = look.mark;
    fill.pattern.across_mm = look.mark == drawing::PatternMark::dots ? 0.9 : 1.5;
    fill.pattern.up_mm = look.mark == drawing::PatternMark::dots ? 0.7 : 1.1;
    return fill;
}

double share_of(const veins::ErrorBudget& budget, veins::ErrorKind kind) {
    double share = 0.0;
    for (const veins::ErrorBudget::Part& part : budget.parts) share += part.kind == kind ? part.share : 0.0;
    return share;
}

Marks bar_of(const veins::ErrorBudget& budget, const Box& cell, const Tools& tools) {
    Marks marks;
    double left = cell.left;
    const double bottom = cell.bottom + bar_air, top = cell.top - bar_air;
    for (const KindLook& look : kinds) {
        const double width = share_of(budget, look.kind) * cell.width();
        if (!(width > 0.0)) continue;
        const Box box{left, bottom, left + width, top};
        marks.push_back(box_area(box, fill_of(look, tools)));
        marks.push_back(box_outline(box, tools.style.line("symbol_edge")));
        left += width;
        if (width < least_for_figure) continue;
        const drawing::TextLook& ink = tools.style.text("table_strong");
        const drawing::TextLook figure = look.grey > 0.4 ? with_colour(ink, tools.style.colour("white")) : ink;
        const double cap = drawing::cap_height_mm(tools.fonts, figure);
        marks.push_back(words({box.left + width / 2.0, (bottom + top - cap) / 2.0},
                              base::fixed(100.0 * share_of(budget, look.kind), 0) + " %", figure, drawing::Anchor::centre,
                              look.mark == drawing::PatternMark::none ? 0.0 : 0.45));
    }
    return marks;
}

std::string share_words(double share) { return base::fixed(100.0 * share, 0) + percent_sign; }

// "surveys and collars 18 % (of it survey and collar of CH-29 10 %)": a kind as the bar has it, and the largest of several parts.
std::string kind_words(const veins::ErrorBudget& budget, const KindLook& look) {
    std::vector<const veins::ErrorBudget::Part*> parts;
    for (const veins::ErrorBudget::Part& part : budget.parts)
        if (part.kind == look.kind && part.share > 0.0) parts.push_back(&part);
    const std::string words = look.words + std::string(" ") + share_words(share_of(budget, look.kind));
    if (parts.size() < 2 || parts.front()->share < least_told) return words;
    return words + " (of it " + parts.front()->what + " " + share_words(parts.front()->share) + ")";
}

// The kinds, the largest first, as the bar's shares have them.
std::string parts_words(const veins::ErrorBudget& budget) {
    std::vector<KindLook> ranked(kinds.begin(), kinds.end());
    std::stable_sort(ranked.begin(), ranked.end(),
                     [&](const KindLook& a, const KindLook& b) { return share_of(budget, a.kind) > share_of(budget, b.kind); });
    std::string words;
    double rest = 1.0;
    std::size_t told = 0;
    for (const KindLook& look : ranked) {
        const double share = share_of(budget, look.kind);
        if (share < least_told || told == most_told) break;
        words += (told++ == 0 ? "" : ", ") + kind_words(budget, look);
        rest -= share;
    }
    return rest >= 0.01 ? words + ", rest " + share_words(rest) : words;
}

// What could be bought; empty where nothing would tell much.
std::string measurement_words(const veins::ErrorBudget& budget) {
    std::string words;
    for (const veins::ErrorBudget::Measurement& one : budget.measurements)
        if (1.0 - one.sd_factor >= least_gain)
            words += (words.empty() ? ". To buy: " : "; ") + one.what + ": " + base::fixed(100.0 * (1.0 - one.sd_factor), 0) +
                     percent_sign + " less doubt foretold";
    return words;
}

// The sd as a length on one scale for all forecasts, `longest` of them the whole cell.
Marks sd_bar(double sd, double longest, const Box& cell, const Tools& tools) {
    const Box box{cell.left, cell.bottom + bar_air, cell.left + cell.width() * sd / longest, cell.top - bar_air};
    return {box_area(box, plain(paled(tools.style.colour("ink"), 0.45)))};
}

TableRow words_under(const std::string& words, std::size_t columns) {
    TableRow row;
    row.joined = true;
    row.cells.assign(columns, {});
    row.cells[words_column] = {words, "", columns - words_column};
    return row;
}

// The kinds of error that any forecast's bar shows, in the bar's order.
LegendGroup error_legend(const Results& results, const Tools& tools) {
    LegendGroup group{"Shares of a forecast's variance", {}};
    for (const KindLook& look : kinds) {
        const bool shown = std::any_of(results.pierces.begin(), results.pierces.end(),
                                       [&](const forecast::Pierce& pierce) { return share_of(pierce.budget, look.kind) > 0.0; });
        if (!shown) continue;
        group.entries.push_back(
            {look.words, [&look, &tools](const Box& box) {
                 return Marks{box_area(box, fill_of(look, tools)), box_outline(box, tools.style.line("symbol_edge"))};
             }});
    }
    return group;
}

}  // namespace

TypesetTable error_budget_table(const Results& results, const Tools& tools) {
    const base::MapFrame& frame = results.records.frame;
    const std::string unit = base::symbol_of(frame.unit);
    double longest = 0.0;
    for (const forecast::Pierce& pierce : results.pierces) longest = std::max(longest, pierce.depth_sd());
    TypesetTable table;
    table.heading = "What the error of each forecast depth is made of, and what could be bought to shrink it";
    table.columns = {{"Hole", "", Cells::words, true},
                     {"Vein", "", Cells::words, false},
                     {"Vein at", unit, Cells::figures, true},
                     {"± sd", unit, Cells::figures, true},
                     {"± sd to scale", "0 to " + length_text(longest, frame), Cells::drawing, false, sd_width},
                     {"Shares of the variance", "0 to 100 %", Cells::drawing, false, bar_width}};
    bool none_to_buy = false;
    for (const forecast::Pierce& pierce : results.pierces) {
        TableRow row;
        row.rule_above = true;
        row.cells = {{pierce.hole, forecast_row_destination(pierce.hole, pierce.vein)},
                     {pierce.vein},
                     {length_figure(pierce.depth, frame)},
                     {length_figure(pierce.depth_sd(), frame)},
                     {},
                     {}};
        if (longest > 0.0)
            row.cells[sd_column].draw = [sd = pierce.depth_sd(), longest, tools](const Box& cell) {
                return sd_bar(sd, longest, cell, tools);
            };
        row.cells[sd_column + 1].draw = [&budget = pierce.budget, tools](const Box& cell) { return bar_of(budget, cell, tools); };
        const std::size_t columns = table.columns.size();
        const std::string to_buy = measurement_words(pierce.budget);
        none_to_buy = none_to_buy || to_buy.empty();
        table.rows.push_back(std::move(row));
        table.rows.push_back(words_under("Made of " + parts_words(pierce.budget) + to_buy, columns));
    }
    table.legend = {error_legend(results, tools)};
    table.end_words = "Foretold with the model's nodes kept; no promise for one hole.";
    if (none_to_buy)
        table.end_words +=
            " Where nothing is named to buy, no further survey or oriented core of a drilled hole would tell much; the "
            "hole's own surveys will, as it deepens.";
    return table;
}

}  // namespace selvage::sheets
