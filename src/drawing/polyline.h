#pragma once

#include "drawing/sheet.h"

#include <functional>
#include <vector>

// Polylines measured, thinned and rounded. Units are the caller's.
namespace selvage::drawing {

double length_of(const std::vector<Point>& line);

// A point of the line and its unit direction there.
struct PointAlong {
    Point at;
    double dx = 1.0, dy = 0.0;
};
// `along` from the start, held within the line's ends. The line has at least one point.
PointAlong point_along(const std::vector<Point>& line, double along);

// The line between two lengths from its start, `from` < `to`.
std::vector<Point> part_along(const std::vector<Point>& line, double from, double to);

// Without the points that lie within `tolerance` of the line that is left (Douglas & Peucker 1973).
std::vector<Point> simplified(const std::vector<Point>& line, double tolerance);

// Corners cut by arcs that start at most `reach` before the corner (quadratic curves, in steps); ends stay where they are.
// may_pass: whether an arc may have its middle there; a corner where it may not stays sharp. Empty: anywhere.
std::vector<Point> rounded(const std::vector<Point>& line, bool closed, double reach,
                           const std::function<bool(const Point&)>& may_pass = {});

}  // namespace selvage::drawing
