#include "sheets/card_depth_line.h"

#include "base/text.h"
#include "drawing/clipping.h"
#include "sheets/forecast_table.h"
#include "sheets/label_text.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace selvage::sheets {

namespace {

constexpr double axis_down = 33.5;  // mm under the part's top
constexpr double axis_left_air = 8.0, axis_right_air = 9.0;
constexpr double bar_half = 2.3, bar_over_axis = 1.2;    // of a vein's range
constexpr double danger_top = 9.5, danger_height = 3.2;  // under the axis
constexpr double words_gap = 5.0, letter_width = 3.4;
constexpr std::size_t most_veins = 3;

struct Scale {
    double left = 0.0, right = 0.0, end = 1.0;  // mm, mm, m
    double x(double depth) const { return left + std::clamp(depth / end, 0.0, 1.0) * (right - left); }
};

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

// "likely at 221 m", "217 and 226 ..." as the sheets say it, in lines; the first with the vein's name.
std::vector<std::string> lines_of(const VeinAhead& ahead, const base::MapFrame& map) {
    std::vector<std::string> lines = ahead_lines(ahead, map);
    lines.front() = ahead.vein + ": " + lines.front();
    return lines;
}

// Blocks of words from left to right, each as near to its place as its neighbours let it; `centres` are moved.
void keep_apart(std::vector<double>& centres, const std::vector<double>& widths, double left, double right,
                double gap = words_gap) {
    double from = left;
    for (std::size_t i = 0; i < centres.size(); ++i) {
        centres[i] = std::max(centres[i], from + widths[i] / 2.0);
        from = centres[i] + widths[i] / 2.0 + gap;
    }
    double to = right;
    for (std::size_t i = centres.size(); i-- > 0;) {
        centres[i] = std::min(centres[i], to - widths[i] / 2.0);
        to = centres[i] - widths[i] / 2.0 - gap;
    }
}

void draw_bars(CardPage& page, const std::vector<const forecast::Pierce*>& bars, const Scale& scale, double axis,
               const Tools& tools) {
    for (const forecast::Pierce* pierce : bars) {
        const double x = scale.x(pierce->depth), low = std::min(scale.x(pierce->depth_p10), x - 1.0);
        const double high = std::max(scale.x(pierce->depth_p90), x + 1.0), bottom = axis + bar_over_axis;
        page.draw({box_outline({low, bottom, high, bottom + 2.0 * bar_half}, tools.style.line("planned_edge")),
                   line_of({{x, bottom - 0.8}, {x, bottom + 2.0 * bar_half + 0.8}}, tools.style.line("planned_rule"))});
    }
}

void write_veins(CardPage& page, const std::vector<VeinAhead>& veins, const Scale& scale, const base::MapFrame& map) {
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
    keep_apart(centres, widths, page.left(), page.right());
    for (std::size_t i = 0; i < veins.size(); ++i) {
        const double step = lines[i].size() > 3 ? 5.2 : 5.6;
        double down = axis_down - 7.6 - step * static_cast<double>(lines[i].size() - 1);
        for (std::size_t k = 0; k < lines[i].size(); ++k, down += step)
            page.write(centres[i], down, lines[i][k], k == 0 ? "card_planned" : "card_range", drawing::Anchor::centre,
                       widths[i] + 0.2, forecast_row_destination(veins[i].hole, veins[i].vein));
    }
}

struct DepthMark {
    std::string text;
    double depth = 0.0;
};

// "call 309" and "stop 352" through the line; gives the stretch of the axis that their words take.
std::vector<std::pair<double, double>> draw_marks(CardPage& page, const std::vector<DepthMark>& marks, const Scale& scale,
                                                  double axis, const Tools& tools) {
    std::vector<double> widths, centres;
    for (const DepthMark& mark : marks) {
        widths.push_back(page.width_of(mark.text, "card_mark"));
        centres.push_back(scale.x(mark.depth));
    }
    keep_apart(centres, widths, page.left(), page.right());
    std::vector<std::pair<double, double>> taken;
    for (std::size_t i = 0; i < marks.size(); ++i) {
        const double x = scale.x(marks[i].depth);
        page.draw({line_of({{x, axis - 4.0}, {x, axis + 0.9}}, tools.style.line("card_axis"))});
        page.write(centres[i], axis_down + 7.6, marks[i].text, "card_mark", drawing::Anchor::centre);
        taken.emplace_back(centres[i] - widths[i] / 2.0 - 2.0, centres[i] + widths[i] / 2.0 + 2.0);
    }
    return taken;
}

void draw_axis(CardPage& page, const CardFacts& facts, const Scale& scale, double axis,
               const std::vector<std::pair<double, double>>& taken, const base::MapFrame& map, const Tools& tools) {
    const drawing::LineLook &thick = tools.style.line("card_axis"), &tick = tools.style.line("card_tick");
    Marks marks{line_of({{scale.left, axis}, {scale.x(scale.end), axis}}, thick),
                line_of({{scale.x(facts.path->end_depth), axis - 1.9}, {scale.x(facts.path->end_depth), axis + 1.9}}, thick)};
    if (facts.is_active())
        marks.push_back(box_area({scale.left, axis - 0.9, scale.x(facts.from), axis + 0.9}, plain(thick.colour)));
    const double end = map.length(scale.end);
    double step = 10.0;
    while (end / step > 50.0) step *= 2.0;
    for (int i = 0; i * step <= end; ++i) {
        const double x = scale.x(i * step * base::metres_per(map.unit));
        const bool fifth = i % 5 == 0;
        marks.push_back(line_of({{x, axis - (fifth ? 2.4 : 1.2)}, {x, axis}}, tick));
        if (!fifth) continue;
        const std::string figure = base::fixed(i * step, 0);
        const double half = page.width_of(figure, "card_figure") / 2.0;
        const bool hidden = std::any_of(taken.begin(), taken.end(), [&](const auto& stretch) {
            return x + half > stretch.first && x - half < stretch.second;
        });
        if (!hidden) page.write(x, axis_down + 6.6, figure, "card_figure", drawing::Anchor::centre);
    }
    page.draw(std::move(marks));
}

// A range that a fault is crossed in somewhere is left white, with a stroke where that is likely; what neighbours met is hatched.
Marks danger_marks(const planning::Danger& danger, const Box& box, const Scale& scale, const Tools& tools) {
    Marks marks{box_outline(box, tools.style.line("card_tick"))};
    if (danger.likely) {
        const double x = std::clamp(scale.x(*danger.likely), box.left, box.right);
        marks.push_back(line_of({{x, box.bottom}, {x, box.top}}, tools.style.line("card_axis")));
        return marks;
    }
    const std::vector<Point> ring{{box.left, box.bottom}, {box.right, box.bottom}, {box.right, box.top}, {box.left, box.top}};
    for (const drawing::Segment& stroke : drawing::hatch({ring}, 0.785, 0.9))
        marks.push_back(line_of({stroke.a, stroke.b}, tools.style.line("danger_hatch")));
    return marks;
}

void draw_dangers(CardPage& page, const CardFacts& facts, const Scale& scale, double axis, const Tools& tools) {
    std::vector<std::pair<double, std::size_t>> letters;  // where each is wanted, and of which danger
    for (std::size_t i = 0; i < facts.dangers.size(); ++i) {
        const planning::Danger& danger = facts.dangers[i];
        const double middle = (scale.x(danger.from) + scale.x(danger.to)) / 2.0;
        const double half = std::max(0.7, (scale.x(danger.to) - scale.x(danger.from)) / 2.0);
        page.draw(danger_marks(danger, {middle - half, axis - danger_top - danger_height, middle + half, axis - danger_top},
                               scale, tools));
        letters.emplace_back(danger.likely ? scale.x(*danger.likely) : middle, i);
    }
    std::sort(letters.begin(), letters.end());
    std::vector<double> centres;
    for (const auto& [x, danger] : letters) centres.push_back(x);
    keep_apart(centres, std::vector<double>(centres.size(), letter_width), page.left(), page.right(), 0.0);
    for (std::size_t i = 0; i < letters.size(); ++i)
        page.write(centres[i], axis_down + danger_top + danger_height + 4.2, danger_letter(letters[i].second), "card_mark",
                   drawing::Anchor::centre);
}

}  // namespace

std::string danger_letter(std::size_t number) {
    return std::string(1, static_cast<char>('a' + static_cast<int>(std::min<std::size_t>(number, 25))));
}

double depth_line_height(const CardFacts& facts) { return facts.dangers.empty() ? 43.5 : 52.5; }

void draw_depth_line(CardPage& page, const CardFacts& facts, const Results& results, const Tools& tools) {
    const base::MapFrame& map = results.records.frame;
    const std::vector<VeinAhead> veins = shown(facts);
    const std::vector<const forecast::Pierce*> bars = bars_of(veins);
    Scale scale{page.left() + axis_left_air, page.right() - axis_right_air, facts.to};
    for (const forecast::Pierce* pierce : bars) scale.end = std::max(scale.end, pierce->depth_p90);
    const double axis = page.top() - axis_down;
    page.write(page.left(), 4.6, "What it should meet, by depth down the hole, " + std::string(base::symbol_of(map.unit)),
               "card_caption");
    std::vector<DepthMark> marks;
    for (const VeinDue& due : veins_due(facts, results)) {
        if (std::none_of(veins.begin(), veins.end(), [&](const VeinAhead& one) { return one.vein == due.ahead.vein; })) continue;
        marks.push_back({"call " + length_figure(due.call, map, 0), due.call});
        if (!due.goes_on_to.empty()) marks.push_back({"stop " + length_figure(due.stop, map, 0), due.stop});
    }
    const AskDepth ask = ask_depth(facts, results);
    marks.push_back({"stop " + length_figure(ask.depth, map, 0), ask.depth});
    std::stable_sort(marks.begin(), marks.end(), [](const DepthMark& a, const DepthMark& b) { return a.depth < b.depth; });
    write_veins(page, veins, scale, map);
    draw_bars(page, bars, scale, axis, tools);
    const std::vector<std::pair<double, double>> taken = draw_marks(page, marks, scale, axis, tools);
    draw_axis(page, facts, scale, axis, taken, map, tools);
    draw_dangers(page, facts, scale, axis, tools);
}

}  // namespace selvage::sheets
