#pragma once

#include "sheets/section_drawing.h"

// Holes on a cross section: traces in the slab and off it, rock strips, depth ticks, collars and ends.
namespace selvage::sheets {

// Collars nearer to each other on paper share one label.
constexpr double same_collar_mm = 3.5;

// Where an active hole has come to: a square, its upper half filled.
Marks drilled_to_symbol(const Point& at, const Tools& tools);

// Off-slab runs first, then what lies in the slab. Planned holes and what is ahead of active ones: see forecast_drawing.h.
void draw_traces(SectionDrawing& drawing);

// Figures at every fifth tick, where the paper is still free; after the labels have their places.
void draw_depth_figures(SectionDrawing& drawing, const std::vector<drawing::Box>& taken);

// Unit vector on paper along the run at a place, and the one square to it that points up (of a vertical hole: to the left): the
// strip's side. Bars, ticks and figures stand on the other side.
struct TraceSides {
    Point along, upper;
};
TraceSides sides_at(const SectionDrawing& drawing, const paths::Path& path, double depth);

}  // namespace selvage::sheets
