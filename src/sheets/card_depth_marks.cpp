#include "sheets/card_depth_marks.h"

#include "base/text.h"
#include "drawing/shortened_name.h"
#include "sheets/label_text.h"

#include <algorithm>
#include <cmath>

namespace selvage::sheets {

namespace {

constexpr double label_under = 6.8, label_step = 4.6, figure_over = 1.5;  // mm, of base lines from the axis

std::vector<DepthMark> wanted_marks(const CardFacts& facts, const Results& results, const std::vector<VeinAhead>& veins,
                                    const Tools& tools) {
    constexpr double name_room = 24.0;    // mm
    constexpr std::size_t most_asks = 2;  // veins; of more the key depths alone say where to ask
    const auto short_name = [&](const std::string& vein) {
        return drawing::shortened_name(tools.fonts, tools.style.text("card_mark"), vein, name_room);
    };
    const base::MapFrame& map = results.records.frame;
    std::vector<VeinDue> due = veins_due(facts, results);
    const bool several = due.size() > 1;
    std::vector<DepthMark> marks;
    const auto add = [&](const std::string& words, double depth) {
        marks.push_back({words + " " + length_figure(depth, map, 0), depth});
    };
    for (const VeinDue& one : due) {
        if (std::none_of(veins.begin(), veins.end(), [&](const VeinAhead& shown) { return shown.vein == one.ahead.vein; }))
            continue;
        add(several ? "call " + short_name(one.ahead.vein) : "call", one.call);
        if (!one.goes_on_to.empty() && due.size() <= most_asks) add("ask " + short_name(one.ahead.vein), one.stop);
    }
    const AskDepth ask = ask_depth(facts, results);
    add("stop", ask.depth);
    if (facts.path->end_depth > ask.depth + 1.0) add("planned end", facts.path->end_depth);
    std::stable_sort(marks.begin(), marks.end(), [](const DepthMark& a, const DepthMark& b) { return a.depth < b.depth; });
    return marks;
}

// Each in the highest row where its words keep clear of others and of the leaders that run down to lower rows.
std::vector<DepthMark> placed(std::vector<DepthMark> marks, const DepthScale& scale, const Tools& tools) {
    constexpr double gap = 2.0, off_leader = 1.0;
    for (std::size_t i = 0; i < marks.size(); ++i) {
        DepthMark& mark = marks[i];
        mark.x = scale.x(mark.depth);
        const double width = drawing::text_width_mm(tools.fonts, tools.style.text("card_mark"), mark.text);
        mark.left = std::max(CardPage::text_left, mark.x - off_leader - width);
        mark.right = mark.left + width;
        const auto is_free = [&](std::size_t row) {
            return std::none_of(marks.begin(), marks.begin() + static_cast<std::ptrdiff_t>(i), [&](const DepthMark& other) {
                if (other.row < row) return false;
                return std::max(other.x, other.right) + gap > mark.left;  // its words, or its leader down to a lower row
            });
        };
        while (!is_free(mark.row)) ++mark.row;
    }
    return marks;
}

std::size_t rows_of(const std::vector<DepthMark>& marks) {
    std::size_t rows = 1;
    for (const DepthMark& mark : marks) rows = std::max(rows, mark.row + 1);
    return rows;
}

}  // namespace

void keep_apart(std::vector<double>& centres, const std::vector<double>& widths, double left, double right, double gap) {
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

std::vector<DepthMark> depth_marks(const CardFacts& facts, const Results& results, const std::vector<VeinAhead>& veins,
                                   const DepthScale& scale, const Tools& tools) {
    return placed(wanted_marks(facts, results, veins, tools), scale, tools);
}

double marks_depth(const std::vector<DepthMark>& marks) {
    return label_under + label_step * static_cast<double>(rows_of(marks) - 1);
}

void draw_depth_marks(CardPage& page, const std::vector<DepthMark>& marks, double axis, const Tools& tools) {
    for (const DepthMark& mark : marks) {
        const double down = label_under + label_step * static_cast<double>(mark.row);
        page.draw({line_of({{mark.x, axis - 3.2}, {mark.x, axis + 0.9}}, tools.style.line("card_axis")),
                   line_of({{mark.x, axis - down + (mark.right > mark.x ? 3.4 : -0.4)}, {mark.x, axis - 3.2}},
                           tools.style.line("card_tick"))});
        page.write(mark.left, page.top() - axis + down, mark.text, "card_mark");
    }
}

void draw_depth_axis(CardPage& page, const CardFacts& facts, const DepthScale& scale, double axis, const base::MapFrame& map,
                     const Tools& tools) {
    const drawing::LineLook &thick = tools.style.line("card_axis"), &tick = tools.style.line("card_tick");
    const double end_at = scale.x(facts.path->end_depth);
    Marks marks{line_of({{scale.left, axis}, {end_at, axis}}, thick),
                line_of({{end_at, axis - 1.9}, {end_at, axis + 1.9}}, thick)};
    if (scale.end > facts.path->end_depth + beyond_plan)
        marks.push_back(line_of({{end_at, axis}, {scale.right, axis}}, tools.style.line("planned_beyond")));
    if (facts.is_active())
        marks.push_back(box_area({scale.left, axis - 0.9, scale.x(facts.from), axis + 0.9}, plain(thick.colour)));
    const double end = map.length(scale.end);
    double step = 10.0;
    while (end / step > 50.0) step *= 2.0;
    for (int i = 0; i * step <= end; ++i) {
        const double x = scale.x(i * step * base::metres_per(map.unit));
        const bool fifth = i % 5 == 0;
        marks.push_back(line_of({{x, axis - (fifth ? 2.4 : 1.2)}, {x, axis}}, tick));
        if (fifth)
            page.write(x, page.top() - axis - figure_over, base::fixed(i * step, 0), "card_figure", drawing::Anchor::centre);
    }
    page.draw(std::move(marks));
}

}  // namespace selvage::sheets
