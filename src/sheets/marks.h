#pragma once

#include "drawing/sheet.h"
#include "sheets/page.h"

#include <string>
#include <vector>

// Short ways to make marks by the roles of the style, and to put them on a sheet.
namespace selvage::sheets {

using drawing::Box;
using drawing::Mark;
using drawing::Point;
using Marks = std::vector<Mark>;

Mark line_of(std::vector<Point> points, const drawing::LineLook& look);
Mark area_of(std::vector<Point> points, const drawing::FillLook& fill);
Mark outlined_area(std::vector<Point> points, const drawing::FillLook& fill, const drawing::LineLook& line);
Mark box_outline(const Box& box, const drawing::LineLook& look);
Mark box_area(const Box& box, const drawing::FillLook& fill);
Mark disc(const Point& centre, double radius_mm, const drawing::FillLook& fill);
Mark ring(const Point& centre, double radius_mm, const drawing::LineLook& line, const drawing::FillLook& fill);
Mark words(const Point& at, std::string text, const drawing::TextLook& look, drawing::Anchor anchor = drawing::Anchor::left,
           double halo_mm = 0.0);

drawing::FillLook plain(const drawing::Colour& colour);
drawing::LineLook with_colour(drawing::LineLook look, const drawing::Colour& colour);
drawing::TextLook with_colour(drawing::TextLook look, const drawing::Colour& colour);
// Mixed with white: share 1 is the colour itself, 0 white.
drawing::Colour paled(const drawing::Colour& colour, double share);

// The box that words cover: base line less descent to the capitals' height.
Box box_of_words(const drawing::Text& text, const drawing::FontMetrics& fonts);

void append(Marks& all, Marks more);
// Window 0: not clipped.
void put(drawing::Sheet& sheet, Layer layer, std::size_t window, Marks marks);
void put(std::vector<drawing::Item>& items, Layer layer, std::size_t window, Marks marks);

}  // namespace selvage::sheets
