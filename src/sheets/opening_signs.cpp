#include "sheets/opening_signs.h"

#include "paths/locate.h"
#include "sheets/holes_ahead.h"
#include "sheets/label_text.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace selvage::sheets {

namespace {

constexpr double pi = 3.14159265358979323846;

}  // namespace

site::Openings openings_of(const Results& results) {
    return results.ahead != nullptr ? results.ahead->openings : site::known_openings(results.records, results.site.ground);
}

std::vector<OpeningInSpace> openings_in_space(const Results& results) {
    std::vector<OpeningInSpace> all;
    for (site::OpenedVoid& opened : openings_of(results).voids) {
        const paths::Path* path = paths::path_of(results.paths, opened.hole);
        if (path == nullptr) continue;
        const double middle = std::clamp((opened.from + opened.to) / 2.0, path->start_depth, path->end_depth);
        all.push_back({std::move(opened), paths::position_at(*path, middle)});
    }
    return all;
}

Marks opening_symbol(const Point& at, const Tools& tools, double width_mm) {
    constexpr int corners = 8;
    const double radius = width_mm / 2.0 / std::cos(pi / corners);
    std::vector<Point> line;
    for (int i = 0; i <= corners; ++i) {
        const double turned = (2.0 * i + 1.0) * pi / corners;
        line.push_back({at.x + radius * std::cos(turned), at.y + radius * std::sin(turned)});
    }
    drawing::LineLook edge = tools.style.line("opening"), casing = with_colour(edge, tools.style.colour("white"));
    edge.width_mm *= width_mm / opening_width_mm;
    casing.width_mm = edge.width_mm + 2.0 * tools.style.line("symbol_halo").width_mm;
    return {line_of(line, casing), line_of(line, edge)};
}

drawing::Label opening_label(const site::OpenedVoid& opened, const Point& at, const base::MapFrame& map, const Tools& tools) {
    const std::string depths =
        "VOID " + (opened.to > opened.from ? depth_range_text(opened.from, opened.to, map) : length_text(opened.from, map));
    drawing::Label label;
    label.owner = opened.hole + " void at " + length_text(opened.from, map);
    label.at = at;
    label.clear_mm = opening_width_mm / 2.0 + 0.3;
    label.priority = 6;
    label.lines = {{depths + ", " + opened.hole, tools.style.text("body_strong"), {}}};
    label.listed_text = opened.hole + "\t" + depths;
    return label;
}

OpeningSigns opening_signs(const std::vector<OpeningOnSheet>& openings, const base::MapFrame& map, DrawnSigns& drawn,
                           const Tools& tools) {
    OpeningSigns signs;
    constexpr double half = opening_width_mm / 2.0 + 0.3;
    for (const OpeningOnSheet& opening : openings) {
        const Point& at = opening.at;
        append(signs.marks, opening_symbol(at, tools));
        signs.boxes.push_back({at.x - half, at.y - half, at.x + half, at.y + half});
        signs.names.push_back(opening_label(opening.opened, at, map, tools));
        signs.voids.push_back(opening.opened);
        drawn.signs.insert(Sign::known_opening);
    }
    return signs;
}

}  // namespace selvage::sheets
