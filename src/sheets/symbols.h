#pragma once

#include "sheets/grade_classes.h"
#include "sheets/marks.h"

// Small signs that stand at a point, the same on every drawing and in every legend. All take the centre on paper.
namespace selvage::sheets {

// Ring, triangle, square, diamond, star by class; pending, not classed, no vein. A white ring round each unless `halo` is false.
Marks hit_symbol(HitSign sign, const Point& at, const Tools& tools, bool halo = true);
// Its width on paper, mm.
double hit_symbol_width_mm(HitSign sign, const Tools& tools);
// A hit of which so little core came up that its grade and thickness are in doubt: two strokes under its sign, parted.
bool has_little_core(const intercepts::Intercept& hit);
Marks little_core_mark(HitSign sign, const Point& at, const Tools& tools);
Box little_core_box(HitSign sign, const Point& at, const Tools& tools);  // what the mark covers
// Colours of a class.
drawing::Colour class_colour(int number, const Tools& tools);
drawing::Colour class_area_colour(int number, const Tools& tools);  // paled, under text

enum class CollarState { drilled, active, planned };
CollarState collar_state(tables::HoleStatus status);
Marks collar_symbol(CollarState state, const Point& at, const Tools& tools);

Marks outcrop_symbol(const Point& at, const Tools& tools);  // small triangle, its tip on the point
// Ring with four ticks, blue; filled where an active hole is on its way there.
// `round_a_hit`: wide enough to be seen round a hit's sign at the same place.
Marks planned_pierce_symbol(const Point& at, const Tools& tools, bool active = false, bool round_a_hit = false);
// Whether signs at two points stand on each other.
bool hides(const Point& a, const Point& b);
Marks beyond_end_symbol(const Point& at, const Tools& tools);   // broken ring, blue: the hole ends before that pierce
Marks less_likely_symbol(const Point& at, const Tools& tools);  // small ring, blue: of a vein's blocks not the likeliest
Marks step_out_symbol(const Point& at, std::size_t rank, const Tools& tools);  // blue hexagon with its rank
constexpr double target_cross_mm = 3.2;
Marks target_cross(const Point& at, const Tools& tools);                    // where a hole is aimed at
Marks target_marks(const Point& at, double radius_mm, const Tools& tools);  // and within what; 0: no tolerance is given
Marks danger_symbol(const Point& at, const Tools& tools);  // a triangle with a stroke and a dot: something on a hole's way
constexpr double danger_width_mm = 4.4;
// A line beside a hole's way with a short stroke towards it at both ends; towards: unit vector.
Marks way_bracket(const std::vector<Point>& line, const Point& towards, const Tools& tools);
Marks north_arrow(const Point& foot, double height_mm, const Tools& tools);

}  // namespace selvage::sheets
