#include "sheets/grid.h"

#include "base/text.h"
#include "sheets/label_text.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace selvage::sheets {

namespace {

constexpr double least_mm = 35.0;  // between grid lines
constexpr double figure_gap = 1.0;

struct Stop {
    double value = 0.0, mm = 0.0;  // mm from the window's left or lower edge
};

std::vector<Stop> stops(const GridAxis& axis, double length_mm, double step) {
    std::vector<Stop> all;
    const double end = axis.at_start + length_mm * axis.units_per_mm;
    for (double i = std::ceil(axis.at_start / step - 1e-9); i * step <= end + 1e-9; i += 1.0)
        all.push_back({i * step, (i * step - axis.at_start) / axis.units_per_mm});
    return all;
}

std::string figure(const GridAxis& axis, double value) {
    const std::string text = axis.spaced ? spaced_thousands(value) : base::significant(value, 8);
    return axis.with_sign && value > 0.0 ? "+" + text : text;
}

// Small ticks: five a step, four where the step is 2 times a power of ten.
double small_step(double step) {
    const double first = step / std::pow(10.0, std::floor(std::log10(step) + 1e-9));
    return std::abs(first - 2.0) < 1e-6 ? step / 4.0 : step / 5.0;
}

// The middle of the last gap between figures that has room for a title, or nothing.
double title_middle(const std::vector<Stop>& marks, double length_mm) {
    if (marks.size() >= 2) return (marks[marks.size() - 2].mm + marks.back().mm) / 2.0;
    return marks.empty()                        ? length_mm / 2.0
           : marks.front().mm > length_mm / 2.0 ? marks.front().mm / 2.0
                                                : (marks.front().mm + length_mm) / 2.0;
}

void add_across(Marks& marks, const Box& window, const GridAxis& axis, const Tools& tools) {
    const double step = grid_step(axis.units_per_mm);
    const std::vector<Stop> all = stops(axis, window.width(), step);
    const double small = tools.style.size_mm("axis_tick"), large = tools.style.size_mm("axis_tick_long");
    const drawing::TextLook& look = tools.style.text("axis");
    for (const Stop& stop : all) {
        const double x = window.left + stop.mm;
        marks.push_back(line_of({{x, window.bottom}, {x, window.top}}, tools.style.line("grid")));
        if (!axis.labelled) continue;
        marks.push_back(line_of({{x, window.bottom - large}, {x, window.bottom}}, tools.style.line("axis_tick")));
        marks.push_back(
            words({x, window.bottom - large - figure_gap - 1.7}, figure(axis, stop.value), look, drawing::Anchor::centre));
    }
    if (!axis.labelled) return;
    for (const Stop& stop : stops(axis, window.width(), small_step(step)))
        marks.push_back(line_of({{window.left + stop.mm, window.bottom - small}, {window.left + stop.mm, window.bottom}},
                                tools.style.line("axis_tick")));
    if (!axis.title.empty())
        marks.push_back(words({window.left + title_middle(all, window.width()), window.bottom - large - figure_gap - 1.7},
                              axis.title, tools.style.text("axis_title"), drawing::Anchor::centre));
}

// Both figures of a line, turned and centred on it, held within the window's height.
Marks upright_figures(const Box& window, double y, const std::string& text, const Tools& tools) {
    const drawing::TextLook& look = tools.style.text("axis");
    const double half = drawing::text_width_mm(tools.fonts, look, text) / 2.0;
    const double middle = std::clamp(y, window.bottom + half, window.top - half);
    Marks marks;
    for (const double x :
         {window.left - tools.style.size_mm("axis_tick_long") - figure_gap * 0.8,
          window.right + tools.style.size_mm("axis_tick_long") + figure_gap * 0.8 + drawing::cap_height_mm(tools.fonts, look)}) {
        drawing::Text figure = std::get<drawing::Text>(words({x, middle}, text, look, drawing::Anchor::centre));
        figure.upright = true;
        marks.emplace_back(std::move(figure));
    }
    return marks;
}

void add_up(Marks& marks, const Box& window, const GridAxis& axis, const Tools& tools) {
    const double step = grid_step(axis.units_per_mm);
    const std::vector<Stop> all = stops(axis, window.height(), step);
    const double small = tools.style.size_mm("axis_tick"), large = tools.style.size_mm("axis_tick_long");
    const drawing::TextLook& look = tools.style.text("axis");
    const double half_cap = drawing::cap_height_mm(tools.fonts, look) / 2.0;
    for (const Stop& stop : all) {
        const double y = window.bottom + stop.mm;
        marks.push_back(line_of({{window.left, y}, {window.right, y}}, tools.style.line("grid")));
        if (!axis.labelled) continue;
        const std::string text = figure(axis, stop.value);
        marks.push_back(line_of({{window.left - large, y}, {window.left, y}}, tools.style.line("axis_tick")));
        marks.push_back(line_of({{window.right, y}, {window.right + large, y}}, tools.style.line("axis_tick")));
        const double base = std::max(y - half_cap, window.bottom - 0.2);
        if (axis.upright) {
            append(marks, upright_figures(window, y, text, tools));
            continue;
        }
        marks.push_back(words({window.left - large - figure_gap * 0.5, base}, text, look, drawing::Anchor::right));
        marks.push_back(words({window.right + large + figure_gap * 0.5, base}, text, look));
    }
    if (!axis.labelled) return;
    for (const Stop& stop : stops(axis, window.height(), small_step(step))) {
        const double y = window.bottom + stop.mm;
        marks.push_back(line_of({{window.left - small, y}, {window.left, y}}, tools.style.line("axis_tick")));
        marks.push_back(line_of({{window.right, y}, {window.right + small, y}}, tools.style.line("axis_tick")));
    }
    if (axis.title.empty()) return;
    const double middle = window.bottom + title_middle(all, window.height());
    for (const double x : {window.left - 4.2, window.right + 5.8}) {
        drawing::Text title =
            std::get<drawing::Text>(words({x, middle}, axis.title, tools.style.text("axis_title"), drawing::Anchor::centre));
        title.upright = true;
        marks.push_back(title);
    }
}

}  // namespace

double grid_step(double units_per_mm) {
    double power = std::pow(10.0, std::floor(std::log10(least_mm * units_per_mm)));
    for (;; power *= 10.0)
        for (const double first : {1.0, 2.0, 5.0})
            if (first * power >= least_mm * units_per_mm * (1.0 - 1e-9)) return first * power;
}

Marks grid_marks(const Box& window, const GridAxis& across, const GridAxis& up, const Tools& tools) {
    Marks marks;
    if (across.lines) add_across(marks, window, across, tools);
    if (up.lines) add_up(marks, window, up, tools);
    marks.push_back(box_outline(window, tools.style.line("window")));
    return marks;
}

}  // namespace selvage::sheets
