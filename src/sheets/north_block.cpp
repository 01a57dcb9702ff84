#include "sheets/north_block.h"

#include "base/text.h"
#include "drawing/clipping.h"
#include "sheets/symbols.h"

#include <algorithm>
#include <cmath>
#include <optional>

namespace selvage::sheets {

namespace {

constexpr double north_height = 13.0, from_corner = 4.0;

std::string degrees_words(base::Angle angle, const char* positive, const char* negative) {
    return base::fixed(std::abs(angle.degrees()), 2) + "° " + (angle.degrees() >= 0.0 ? positive : negative);
}

// What north is meant, and where the others lie, as far as somebody has said it.
std::vector<std::string> north_words(const settings::North& north) {
    std::vector<std::string> lines{"grid north is up"};
    // Convergence is the bearing of grid north clockwise from true north: true north lies the other way.
    lines.push_back(north.convergence_given ? "true north " + degrees_words(-north.grid_convergence, "east", "west") + " of grid"
                                            : std::string("grid convergence not given, taken as 0"));
    if (north.declination)
        lines.push_back("magnetic north " + degrees_words(*north.declination - north.grid_convergence, "east", "west") +
                        " of grid, date not given");
    return lines;
}

Point size_of(const std::vector<std::string>& lines, const Tools& tools) {
    double width = 10.0;
    for (const std::string& line : lines)
        width = std::max(width, drawing::text_width_mm(tools.fonts, tools.style.text("note"), line));
    return {width, north_height + 4.0 + tools.style.size_mm("leading") * static_cast<double>(lines.size())};
}

// How much of the drawing a box would stand on.
std::size_t covered_by(const Box& box, const drawing::Obstacles& obstacles) {
    const auto boxes = std::count_if(obstacles.boxes.begin(), obstacles.boxes.end(),
                                     [&](const Box& other) { return drawing::overlap(box, other); });
    const auto lines = std::count_if(obstacles.lines.begin(), obstacles.lines.end(),
                                     [&](const drawing::Segment& line) { return drawing::touches(line, box); });
    return static_cast<std::size_t>(boxes + lines);
}

// The corner of the window where it covers least; of equals the first, upper right before lower right, upper left, lower left.
Box emptiest_corner(const Point& size, const Box& window, const drawing::Obstacles& obstacles) {
    const Box room = drawing::grown(window, -from_corner);
    std::optional<Box> best;
    std::size_t least = 0;
    for (const bool at_right : {true, false})
        for (const bool at_top : {true, false}) {
            const double left = at_right ? room.right - size.x : room.left, bottom = at_top ? room.top - size.y : room.bottom;
            const Box box{left, bottom, left + size.x, bottom + size.y};
            const std::size_t covered = covered_by(drawing::grown(box, 1.0), obstacles);
            if (best && covered >= least) continue;
            best = box;
            least = covered;
        }
    return *best;
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

NorthBlock north_block(const settings::North& north, const Box& window, const drawing::Obstacles& obstacles, const Tools& tools) {
    const std::vector<std::string> lines = north_words(north);
    const Box box = emptiest_corner(size_of(lines, tools), window, obstacles);
    return {north_marks(box, lines, tools), box};
}

}  // namespace selvage::sheets
