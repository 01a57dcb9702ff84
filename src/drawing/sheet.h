#pragma once

#include "drawing/style.h"

#include <cmath>
#include <cstddef>
#include <optional>
#include <string>
#include <variant>
#include <vector>

// A sheet as a value: millimetres on paper, from the lower left corner. PDF is one way to show it.
namespace selvage::drawing {

struct Point {
    double x = 0.0, y = 0.0;  // mm; y up
};
// Of a step on paper, mm: no larger than a sheet, so nothing can overflow.
inline double length_of(double dx, double dy) { return std::sqrt(dx * dx + dy * dy); }

struct Segment {
    Point a, b;
};

struct Box {
    double left = 0.0, bottom = 0.0, right = 0.0, top = 0.0;  // mm
    double width() const { return right - left; }
    double height() const { return top - bottom; }
};

bool overlap(const Box& a, const Box& b);  // sharing more than their edges
Box grown(const Box& box, double by_mm);
Box united(const Box& a, const Box& b);

// A line, an outline or a filled area. Several rings: the even-odd rule.
struct Shape {
    std::vector<std::vector<Point>> rings;  // each a polyline, closed ones without the first point again
    bool closed = false;
    std::optional<LineLook> line;
    std::optional<FillLook> fill;
};

enum class Anchor { left, centre, right };

struct Text {
    Point at;          // on the base line
    std::string text;  // UTF-8
    TextLook look;
    Anchor anchor = Anchor::left;
    bool upright = false;  // true: turned 90 degrees, reads from below
    double halo_mm = 0.0;  // width of the white edge behind it, 0 none
    std::string link;      // name of a destination that a click leads to
};

using Mark = std::variant<Shape, Text>;

struct Item {
    Mark mark;
    std::size_t layer = 0;   // index into Sheet::layers
    std::size_t window = 0;  // 0: not clipped, else 1 + index into Sheet::windows
};

// A drawing window to scale: what is drawn in it is clipped to it, and a reader's measuring tool knows its scale.
struct Window {
    Box box;
    double metres_per_mm = 1.0;
    std::string unit = "m";  // of a measuring tool: "m" or "ft"
    double units_per_mm = 1.0;
};

// A named place on the sheet that links lead to.
struct Destination {
    std::string name;
    Point at;
};

// How the placer did on this sheet, for the run record.
struct LabelFigures {
    std::size_t wanted = 0, beside = 0, on_leaders = 0, listed = 0, overlaps = 0, crossings = 0;
    double leader_mean_mm = 0.0, leader_longest_mm = 0.0;
};

struct Sheet {
    std::string kind;   // "long-section": part of the file's name
    std::string name;   // "Sorrel": the rest of it
    std::string title;  // bookmark
    double width_mm = 420.0, height_mm = 297.0;
    std::vector<std::string> layers{"sheet"};  // by meaning: "holes", "walls" ...
    std::vector<Window> windows;
    std::vector<Item> items;  // painted in this order
    std::vector<Destination> destinations;
    LabelFigures labels;
};

// The sheet with all that is on it, and its paper, so many times as large.
Sheet enlarged(Sheet sheet, double times);

}  // namespace selvage::drawing
