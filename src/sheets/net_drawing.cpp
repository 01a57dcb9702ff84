#include "sheets/net_drawing.h"

#include "orientation/net.h"
#include "sheets/label_text.h"

#include <cmath>
#include <optional>
#include <utility>

namespace selvage::sheets {

namespace {

constexpr double pi = 3.14159265358979323846;

// Round enough at this size.
std::vector<Point> round_line(const Net& net, double radius) {
    constexpr int corners = 360;
    std::vector<Point> points;
    for (int i = 0; i < corners; ++i)
        points.push_back(
            {net.centre.x + radius * std::cos(2.0 * pi * i / corners), net.centre.y + radius * std::sin(2.0 * pi * i / corners)});
    return points;
}

Point at_bearing(const Net& net, double degrees, double radius) {
    const base::Angle bearing = base::Angle::degrees(degrees);
    return {net.centre.x + radius * bearing.sin(), net.centre.y + radius * bearing.cos()};
}

}  // namespace

Point Net::paper(const Eigen::Vector3d& line) const {
    const Eigen::Vector2d at = radius * orientation::on_equal_area_net(line);
    return {centre.x + at.x(), centre.y + at.y()};
}

Marks net_frame(const Net& net, const Tools& tools) {
    const drawing::LineLook &grid = tools.style.line("grid"), &tick = tools.style.line("axis_tick");
    Marks marks;
    for (const double plunge : {30.0, 60.0}) {
        const Eigen::Vector3d line = base::unit_vector({base::Azimuth(), base::Dip::degrees(plunge)});
        const std::vector<Point> circle = round_line(net, net.radius * orientation::on_equal_area_net(line).norm());
        marks.push_back(drawing::Mark(drawing::Shape{{circle}, true, grid, {}}));
    }
    const double cap = drawing::cap_height_mm(tools.fonts, tools.style.text("axis"));
    for (int degrees = 0; degrees < 360; degrees += 10) {
        const bool figure = degrees % 30 == 0;
        if (figure) marks.push_back(line_of({at_bearing(net, degrees, 0.0), at_bearing(net, degrees, net.radius)}, grid));
        marks.push_back(
            line_of({at_bearing(net, degrees, net.radius), at_bearing(net, degrees, net.radius + (figure ? 2.2 : 1.1))}, tick));
        if (!figure) continue;
        const Point at = at_bearing(net, degrees, net.radius + 6.4);
        const std::string said = degrees % 90 == 0 ? compass_point(base::Azimuth::degrees(degrees))
                                                   : bearing_text(base::Azimuth::degrees(degrees)).substr(0, 3);
        const drawing::TextLook& look = tools.style.text(degrees % 90 == 0 ? "end_letters" : "axis");
        marks.push_back(words({at.x, at.y - cap / 2.0}, said, look, drawing::Anchor::centre));
    }
    marks.push_back(drawing::Mark(drawing::Shape{{round_line(net, net.radius)}, true, tools.style.line("panel"), {}}));
    marks.push_back(line_of({{net.centre.x - 1.2, net.centre.y}, {net.centre.x + 1.2, net.centre.y}}, tick));
    marks.push_back(line_of({{net.centre.x, net.centre.y - 1.2}, {net.centre.x, net.centre.y + 1.2}}, tick));
    return marks;
}

Mark net_mask(const Net& net, const Tools& tools) {
    const double half = net.radius * 1.05;
    drawing::Shape mask;
    mask.rings = {round_line(net, net.radius),
                  {{net.centre.x - half, net.centre.y - half},
                   {net.centre.x + half, net.centre.y - half},
                   {net.centre.x + half, net.centre.y + half},
                   {net.centre.x - half, net.centre.y + half}}};
    mask.closed = true;
    mask.fill = plain(tools.style.colour("white"));
    return mask;
}

std::vector<std::vector<Point>> cone_on_net(const Net& net, const Eigen::Vector3d& axis, base::Angle angle) {
    constexpr int steps = 180;
    const Eigen::Vector3d first = axis.unitOrthogonal(), second = axis.cross(first);
    std::vector<std::vector<Point>> pieces;
    std::optional<Eigen::Vector3d> before;
    for (int i = 0; i <= steps; ++i) {
        const double turn = 2.0 * pi * i / steps;
        const Eigen::Vector3d line = angle.cos() * axis + angle.sin() * (std::cos(turn) * first + std::sin(turn) * second);
        const bool up = line.z() > 0.0;
        if (before && (before->z() > 0.0) != up) {
            // At the rim, and in again on the other side.
            const double share = before->z() / (before->z() - line.z());
            Eigen::Vector3d level = *before + share * (line - *before);
            level.z() = 0.0;
            level.normalize();
            pieces.back().push_back(net.paper(up ? level : Eigen::Vector3d(-level)));
            pieces.push_back({net.paper(up ? Eigen::Vector3d(-level) : level)});
        }
        if (pieces.empty()) pieces.emplace_back();
        pieces.back().push_back(net.paper(line));
        before = line;
    }
    return pieces;
}

std::vector<std::vector<Point>> on_net(const Net& net, const std::vector<std::vector<Point>>& rings) {
    std::vector<std::vector<Point>> all = rings;
    for (std::vector<Point>& ring : all)
        for (Point& point : ring) point = {net.centre.x + net.radius * point.x, net.centre.y + net.radius * point.y};
    return all;
}

}  // namespace selvage::sheets
