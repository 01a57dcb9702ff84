#pragma once

#include "drawing/sheet.h"

#include <optional>
#include <string>
#include <vector>

// Point symbols as shapes. Their names say what they look like; the sheets say what they mean.
namespace selvage::drawing {

struct SymbolLook {
    std::optional<LineLook> edge;
    std::optional<FillLook> fill;
    double halo_mm = 0.0;  // width of a white edge behind the symbol, 0 none
};

// The names: "ring", "ring_dot" (a dot in its middle), "half_ring" (its left half filled), "target" (ring, four ticks, a dot),
// "triangle", "triangle_down", "square", "diamond", "star", "cross" (of two slanting strokes), "hexagon", "box" (a square, half
// as high as wide).
const std::vector<std::string>& symbol_names();

// A symbol `width_mm` wide about its centre, painted in order. Dots and filled halves take the edge's colour. An unknown name
// asserts, and draws a ring where assertions are off.
std::vector<Shape> symbol(const std::string& name, Point centre, double width_mm, const SymbolLook& look);

// A circle and an ellipse as closed rings. turned: anticlockwise from the x axis to the first half axis, radians.
std::vector<Point> circle(Point centre, double radius);
std::vector<Point> ellipse(Point centre, double half_long, double half_short, double turned);

// A filled arrow head with its tip at `tip`, pointing along (dx, dy).
Shape arrow_head(Point tip, double dx, double dy, double length_mm, Colour colour);

}  // namespace selvage::drawing
