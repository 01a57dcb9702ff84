#pragma once

#include "drawing/sheet.h"

#include <optional>
#include <utility>
#include <vector>

// Lines and areas cut by boxes and by each other. Units are the caller's: millimetres or metres alike.
namespace selvage::drawing {

// The part of a segment within the box; nothing where it stays outside.
std::optional<Segment> clipped(const Segment& segment, const Box& box);

// The pieces of a polyline within the box, in order.
std::vector<std::vector<Point>> clipped_line(const std::vector<Point>& line, const Box& box);

// The pieces of a polyline outside all the boxes, in order: a line broken round words.
std::vector<std::vector<Point>> line_outside(const std::vector<Point>& line, const std::vector<Box>& boxes);

// A polygon (closed, without its first point again) cut by the box; fewer than three points where nothing is left. A concave
// one may come back joined along the box's edge (Sutherland & Hodgman 1974).
std::vector<Point> clipped_polygon(const std::vector<Point>& polygon, const Box& box);

// Where two segments meet, end points included; nothing where they miss or run parallel.
std::optional<Point> crossing(const Segment& first, const Segment& second);

bool touches(const Segment& segment, const Box& box);
double distance(const Point& point, const Segment& segment);
double distance(const Point& point, const Box& box);  // 0 within
double distance(const Segment& segment, const Box& box);

// Even-odd rule over several rings; a point on an edge may fall either way.
bool inside(const Point& point, const std::vector<std::vector<Point>>& rings);

// Parallel strokes across the area of some rings (even-odd), `every` apart, on lines that are fixed to the page: at whole
// multiples of `every` from the origin. direction_rad: of the strokes, anticlockwise from the x axis.
std::vector<Segment> hatch(const std::vector<std::vector<Point>>& rings, double direction_rad, double every);

}  // namespace selvage::drawing
