#pragma once

#include "drawing/labels.h"
#include "drawing/sheet.h"
#include "sheets/marks.h"
#include "sheets/paper_frame.h"
#include "sheets/vein_field.h"

#include <cstddef>
#include <string>
#include <vector>

// A field as it is drawn: tints between the breaks where it is solid, lines of equal value, their figures.
namespace selvage::sheets {

struct Isoline {
    std::vector<Point> points;  // mm
    bool solid = true;          // false: dashed
    std::size_t level = 0;      // index of the break
};

struct Tint {
    std::vector<std::vector<Point>> rings;  // even-odd, mm
    std::size_t level = 0;                  // index of the break that it lies above
};

struct Isolines {
    std::vector<Tint> tints;  // painted in order, each over the last
    std::vector<Isoline> lines;
};

// log_breaks rising. A tint lies where the field is solid and at or above its break; a line is solid where the field is, dashed
// where it is drawn, and ends there; a dashed piece by itself that is too short for its figure is left out.
Isolines cut_isolines(const VeinField& field, const std::vector<double>& log_breaks, const PaperFrame& frame);

// A line's own figure, level, in a gap of the line.
struct IsolineFigure {
    drawing::Text text;
    Box box;  // what it covers, with its air
};

// Places a figure on each level's longest pieces and on every one that stands alone, clear of what is taken and of other
// isolines; none where there is no room. names: by level.
std::vector<IsolineFigure> isoline_figures(const std::vector<Isoline>& lines, const std::vector<std::string>& names,
                                           const drawing::Obstacles& taken, const Box& window, const Tools& tools);

}  // namespace selvage::sheets
