#include "drawing/contour.h"

#include "drawing/contour_edges.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <utility>

namespace selvage::drawing {

namespace {

// A corner of a triangle: a node of the grid or the centre of a cell.
struct Corner {
    Point at;
    double value = 0.0;
};

using Triangle = std::array<Corner, 3>;

Point node_point(const ValueGrid& grid, std::size_t column, std::size_t row) {
    return {grid.first.x + grid.step_x * static_cast<double>(column), grid.first.y + grid.step_y * static_cast<double>(row)};
}

// A cell's corners, anticlockwise from the lower left one; nothing where one has no value.
std::optional<std::array<Corner, 4>> cell_corners(const ValueGrid& grid, std::size_t column, std::size_t row) {
    std::array<Corner, 4> corners;
    for (std::size_t i = 0; i < 4; ++i) {
        const std::size_t c = column + (i == 1 || i == 2 ? 1 : 0), r = row + (i >= 2 ? 1 : 0);
        corners[i] = {node_point(grid, c, r), grid.at(c, r)};
        if (!std::isfinite(corners[i].value)) return std::nullopt;
    }
    return corners;
}

std::array<Triangle, 4> triangles_of(const std::array<Corner, 4>& corners) {
    const Corner centre{{(corners[0].at.x + corners[2].at.x) / 2.0, (corners[0].at.y + corners[2].at.y) / 2.0},
                        (corners[0].value + corners[1].value + corners[2].value + corners[3].value) / 4.0};
    std::array<Triangle, 4> triangles;
    for (std::size_t i = 0; i < 4; ++i) triangles[i] = {corners[i], corners[(i + 1) % 4], centre};
    return triangles;
}

bool before(const Point& a, const Point& b) { return a.y != b.y ? a.y < b.y : a.x < b.x; }

// Where a level passes between two corners: always reckoned from the same end, so that two triangles agree to the last bit.
Point passing(const Corner& a, const Corner& b, double level) {
    const bool swap = before(b.at, a.at);
    const Corner &from = swap ? b : a, &to = swap ? a : b;
    const double share = (level - from.value) / (to.value - from.value);
    return {from.at.x + share * (to.at.x - from.at.x), from.at.y + share * (to.at.y - from.at.y)};
}

// The part of a triangle where low <= value < high, anticlockwise: each side is walked, and cut where it leaves or enters.
std::vector<Point> part_between(const Triangle& triangle, double low, double high) {
    std::vector<Point> part;
    for (std::size_t i = 0; i < 3; ++i) {
        const Corner &a = triangle[i], &b = triangle[(i + 1) % 3];
        const bool a_over_low = a.value >= low, b_over_low = b.value >= low;
        const bool a_under_high = a.value < high, b_under_high = b.value < high;
        if (a_over_low && a_under_high) part.push_back(a.at);
        const bool rising = a.value < b.value;
        const auto cut_low = [&] {
            if (a_over_low != b_over_low) part.push_back(passing(a, b, low));
        };
        const auto cut_high = [&] {
            if (a_under_high != b_under_high) part.push_back(passing(a, b, high));
        };
        if (rising) {
            cut_low();
            cut_high();
        } else {
            cut_high();
            cut_low();
        }
    }
    return part;
}

// The piece of a level within a triangle, higher values to its left.
std::optional<Segment> piece_of_level(const Triangle& triangle, double level) {
    std::optional<Point> start, end;
    for (std::size_t i = 0; i < 3; ++i) {
        const Corner &a = triangle[i], &b = triangle[(i + 1) % 3];
        if ((a.value >= level) == (b.value >= level)) continue;
        // Walking anticlockwise, the higher part is left on its falling side: there the level comes in.
        (a.value >= level ? start : end) = passing(a, b, level);
    }
    if (!start || !end) return std::nullopt;
    return Segment{*start, *end};
}

// Whether a cell lies wholly in the band; its centre is a mean of its corners, so it does too.
bool whole(const std::array<Corner, 4>& corners, double low, double high) {
    return std::all_of(corners.begin(), corners.end(), [&](const Corner& c) { return c.value >= low && c.value < high; });
}

bool nothing(const std::array<Corner, 4>& corners, double low, double high) {
    return std::all_of(corners.begin(), corners.end(), [&](const Corner& c) { return c.value < low; }) ||
           std::all_of(corners.begin(), corners.end(), [&](const Corner& c) { return c.value >= high; });
}

template <typename Visit>
void each_cell(const ValueGrid& grid, Visit visit) {
    for (std::size_t row = 0; row + 1 < grid.rows; ++row)
        for (std::size_t column = 0; column + 1 < grid.columns; ++column)
            if (const auto corners = cell_corners(grid, column, row)) visit(column, row, *corners);
}

}  // namespace

std::vector<ContourLine> contour_lines(const ValueGrid& grid, double level) {
    std::vector<Segment> pieces;
    each_cell(grid, [&](std::size_t, std::size_t, const std::array<Corner, 4>& corners) {
        if (whole(corners, level, INFINITY) || nothing(corners, level, INFINITY)) return;
        for (const Triangle& triangle : triangles_of(corners))
            if (const auto piece = piece_of_level(triangle, level)) pieces.push_back(*piece);
    });
    return joined(pieces);
}

std::vector<std::vector<Point>> contour_area(const ValueGrid& grid, double low, double high) {
    const std::size_t cells_across = grid.columns > 0 ? grid.columns - 1 : 0;
    std::vector<bool> filled(cells_across * (grid.rows > 0 ? grid.rows - 1 : 0), false);
    each_cell(grid, [&](std::size_t column, std::size_t row, const std::array<Corner, 4>& corners) {
        filled[row * cells_across + column] = whole(corners, low, high);
    });
    const auto is_filled = [&](std::size_t column, std::size_t row, std::size_t side) {
        // The neighbour across side 0 (below), 1 (right), 2 (above), 3 (left).
        if ((side == 0 && row == 0) || (side == 3 && column == 0)) return false;
        const std::size_t c = side == 1 ? column + 1 : side == 3 ? column - 1 : column;
        const std::size_t r = side == 2 ? row + 1 : side == 0 ? row - 1 : row;
        return c < cells_across && r + 1 < grid.rows && filled[r * cells_across + c];
    };
    std::vector<Segment> edges;
    each_cell(grid, [&](std::size_t column, std::size_t row, const std::array<Corner, 4>& corners) {
        if (filled[row * cells_across + column]) {
            for (std::size_t side = 0; side < 4; ++side)
                if (!is_filled(column, row, side)) edges.push_back({corners[side].at, corners[(side + 1) % 4].at});
            return;
        }
        if (nothing(corners, low, high)) return;
        for (const Triangle& triangle : triangles_of(corners)) {
            const std::vector<Point> part = part_between(triangle, low, high);
            if (part.size() < 3) continue;
            for (std::size_t i = 0; i < part.size(); ++i) edges.push_back({part[i], part[(i + 1) % part.size()]});
        }
    });
    std::vector<std::vector<Point>> rings;
    for (ContourLine& line : joined(without_opposites(edges)))
        if (line.points.size() > 2) rings.push_back(std::move(line.points));
    return rings;
}

}  // namespace selvage::drawing
