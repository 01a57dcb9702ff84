#include "sheets/scale_bar.h"

#include "base/text.h"
#include "sheets/page.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace selvage::sheets {

namespace {

constexpr double longest_part = 21.0;  // mm, of each part
constexpr double longest_bar = 62.0;   // mm
constexpr double least_apart = 14.0;   // mm, between two figures

std::string usual_note(double denominator, base::LengthUnit unit) {
    if (unit == base::LengthUnit::metre) return fmt::format("10 mm on paper is {} m", base::significant(denominator / 100.0, 4));
    return fmt::format("1 inch on paper is {} ft", base::significant(denominator / 12.0, 4));
}

}  // namespace

Marks small_scale_marks(const Box& window, double metres_per_mm, const std::string& note, base::LengthUnit unit,
                        const Tools& tools) {
    const double units_per_mm = metres_per_mm / base::metres_per(unit);
    const double length = round_length(window.width() * units_per_mm / 3.0), bar = length / units_per_mm;
    const double y = window.bottom - 4.6, x = window.right;
    const drawing::LineLook& look = tools.style.line("scale_bar");
    const std::string figure = base::fixed(length, 0) + " " + base::symbol_of(unit);
    Marks marks{line_of({{x - bar, y}, {x, y}}, look), line_of({{x - bar, y - 0.9}, {x - bar, y + 0.9}}, look),
                line_of({{x, y - 0.9}, {x, y + 0.9}}, look),
                words({x - bar - 1.5, y - 0.9}, figure, tools.style.text("scale_figure"), drawing::Anchor::right)};
    // Left of the bar, in two lines where one has no room.
    const double room =
        x - bar - 4.5 - drawing::text_width_mm(tools.fonts, tools.style.text("scale_figure"), figure) - window.left;
    const drawing::TextLook& note_look = tools.style.text("note");
    const std::vector<std::string> lines =
        drawing::wrapped(tools.fonts, note_look, scale_text(metres_per_mm * 1000.0) + note, room);
    for (std::size_t i = 0; i < lines.size(); ++i) {
        const double off = 0.5 * (static_cast<double>(lines.size()) - 1.0) - static_cast<double>(i);
        marks.push_back(words({window.left, y - 0.9 + 3.0 * off}, lines[i], note_look));
    }
    return marks;
}

double round_length(double most) {
    const double power = std::pow(10.0, std::floor(std::log10(most)));
    for (const double first : {5.0, 2.0})
        if (first * power <= most * (1.0 + 1e-9)) return first * power;
    return power;
}

std::string scale_text(double denominator) { return "SCALE 1:" + base::fixed(denominator, 0); }

Marks scale_bar_marks(const Box& foot, double denominator, const std::string& note, base::LengthUnit unit, const Tools& tools) {
    const double units_per_mm = denominator / 1000.0 / base::metres_per(unit);
    const double part = round_length(longest_part * units_per_mm), part_mm = part / units_per_mm;
    const double bottom = foot.bottom + 4.2, height = 1.2;
    const int parts = static_cast<int>(std::floor(longest_bar / part_mm + 1e-9)), figure_every = part_mm < least_apart ? 2 : 1;
    const double left = foot.right - 9.0 - parts * part_mm - 6.0;
    const drawing::LineLook& edge = tools.style.line("scale_bar");
    const drawing::TextLook& figure = tools.style.text("scale_figure");
    const drawing::FillLook ink = plain(tools.style.colour("ink")), white = plain(tools.style.colour("white"));
    const double words_left = foot.right - scale_bar_room;

    Marks marks{
        words({words_left, foot.bottom + 7.2}, scale_text(denominator), tools.style.text("scale")),
        words({words_left, foot.bottom + 3.4}, note.empty() ? usual_note(denominator, unit) : note, tools.style.text("note"))};
    const auto add_part = [&](double from, double to, bool filled) {
        const Box box{left + from, bottom, left + to, bottom + height};
        marks.push_back(box_area(box, filled ? ink : white));
        marks.push_back(box_outline(box, edge));
    };
    constexpr int fine = 5;
    for (int i = 0; i < fine; ++i) add_part(part_mm * i / fine, part_mm * (i + 1) / fine, i % 2 == 0);
    for (int i = 1; i < parts; ++i) add_part(i * part_mm, (i + 1) * part_mm, i % 2 == 0);
    for (int i = 0; i <= parts; i += figure_every)
        marks.push_back(
            words({left + i * part_mm, bottom + height + 1.4}, base::significant(i * part, 6), figure, drawing::Anchor::centre));
    marks.push_back(words({left + parts * part_mm + 5.0, bottom + height + 1.4}, base::symbol_of(unit), figure));
    return marks;
}

}  // namespace selvage::sheets
