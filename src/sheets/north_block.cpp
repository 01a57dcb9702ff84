#include "sheets/north_block.h"

#include "base/text.h"
#include "sheets/symbols.h"

#include <algorithm>
#include <cmath>

namespace selvage::sheets {

namespace {

constexpr double north_height = 13.0, from_corner = 4.0;

std::string degrees_words(base::Angle angle, const char* positive, const char* negative) {
    return base::fixed(std::abs(angle.degrees()), 2) + "° " + (angle.degrees() >= 0.0 ? positive : negative);
}

// What north is meant, and where the others lie.
std::vector<std::string> north_words(const settings::Project& project, const std::string& date) {
    std::vector<std::string> lines{"grid north is up"};
    // Convergence is the bearing of grid north clockwise from true north: true north lies the other way.
    lines.push_back("true north " + degrees_words(-project.north.grid_convergence, "east", "west") + " of grid");
    if (project.north.declination)
        lines.push_back("magnetic north " + degrees_words(*project.north.declination - project.north.grid_convergence, "east", "west") +
                        " of grid" + (date.empty() ? "" : ", " + date));
    return lines;
}

Box north_box(const std::vector<std::string>& lines, const Box& window, const Tools& tools) {
    double width = 10.0;
    for (const std::string& line : lines) width = std::max(width, drawing::text_width_mm(tools.fonts, tools.style.text("note"), line));
    const double height = north_height + 4.0 + tools.style.size_mm("leading") * static_cast<double>(lines.size());
    return {window.right - from_corner - width, window.top - from_corner - height, window.right - from_corner, window.top - from_corner};
}

Marks north_marks(const Box& box, const std::vector<std::string>& lines, const Tools& tools) {
    Marks marks = north_arrow({box.right - 4.0, box.top - north_height - 3.0}, north_height, tools);
    double base = box.top - north_height - 3.0 - tools.style.size_mm("leading");
    for (const std::string& line : lines) {
        marks.push_back(words({box.right, base}, line, tools.style.text("note"), drawing::Anchor::right));
        base -= tools.style.size_mm("leading");
    }
    return marks;
}

}  // namespace

NorthBlock north_block(const settings::Project& project, const std::string& date, const Box& window, const Tools& tools) {
    const std::vector<std::string> lines = north_words(project, date);
    const Box box = north_box(lines, window, tools);
    return {north_marks(box, lines, tools), box};
}

}  // namespace selvage::sheets
