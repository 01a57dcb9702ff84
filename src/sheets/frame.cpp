#include "sheets/frame.h"

#include <cmath>
#include <string>
#include <vector>

namespace selvage::sheets {

namespace {

constexpr double outside = 4.2;       // mm, the second line outside the frame
constexpr double field = 50.0;        // mm along the frame
constexpr double least_field = 18.0;  // mm; a shorter rest joins its neighbour

// Limits of the fields between two ends, counted from the middle.
std::vector<double> field_limits(double from, double to) {
    const double middle = (from + to) / 2.0;
    std::vector<double> limits{from};
    const int each_side = static_cast<int>(std::floor((middle - from - least_field) / field));
    for (int i = -each_side; i <= each_side; ++i) limits.push_back(middle + i * field);
    limits.push_back(to);
    return limits;
}

std::string field_letter(std::size_t i) { return std::string(1, static_cast<char>('A' + static_cast<int>(i))); }

}  // namespace

Marks frame_marks(const Box& frame, const Tools& tools) {
    const Box outer = drawing::grown(frame, outside);
    const drawing::LineLook& tick = tools.style.line("frame_tick");
    const drawing::TextLook& look = tools.style.text("frame_grid");
    const double half_cap = drawing::cap_height_mm(tools.fonts, look) / 2.0;
    Marks marks{box_outline(outer, tools.style.line("frame_outer")), box_outline(frame, tools.style.line("frame"))};

    const std::vector<double> across = field_limits(frame.left, frame.right);
    for (std::size_t i = 0; i + 1 < across.size(); ++i) {
        const double middle = (across[i] + across[i + 1]) / 2.0;
        for (const double y : {frame.bottom - outside / 2.0, frame.top + outside / 2.0})
            marks.push_back(words({middle, y - half_cap}, std::to_string(i + 1), look, drawing::Anchor::centre));
        if (i == 0) continue;
        marks.push_back(line_of({{across[i], frame.bottom - outside}, {across[i], frame.bottom}}, tick));
        marks.push_back(line_of({{across[i], frame.top}, {across[i], frame.top + outside}}, tick));
    }
    const std::vector<double> up = field_limits(frame.bottom, frame.top);
    for (std::size_t i = 0; i + 1 < up.size(); ++i) {
        const double middle = (up[up.size() - 2 - i] + up[up.size() - 1 - i]) / 2.0;
        for (const double x : {frame.left - outside / 2.0, frame.right + outside / 2.0})
            marks.push_back(words({x, middle - half_cap}, field_letter(i), look, drawing::Anchor::centre));
        if (i == 0) continue;
        const double limit = up[up.size() - 1 - i];
        marks.push_back(line_of({{frame.left - outside, limit}, {frame.left, limit}}, tick));
        marks.push_back(line_of({{frame.right, limit}, {frame.right + outside, limit}}, tick));
    }

    const drawing::LineLook& centring = tools.style.line("centring");
    const double x = (frame.left + frame.right) / 2.0, y = (frame.bottom + frame.top) / 2.0;
    marks.push_back(line_of({{x, frame.bottom - outside}, {x, frame.bottom}}, centring));
    marks.push_back(line_of({{x, frame.top}, {x, frame.top + outside}}, centring));
    marks.push_back(line_of({{frame.left - outside, y}, {frame.left, y}}, centring));
    marks.push_back(line_of({{frame.right, y}, {frame.right + outside, y}}, centring));
    return marks;
}

}  // namespace selvage::sheets
