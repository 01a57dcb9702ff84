#include "sheets/marks.h"

#include "drawing/symbols.h"

#include <cmath>
#include <iterator>
#include <utility>

namespace selvage::sheets {

namespace {

std::vector<Point> corners(const Box& box) {
    return {{box.left, box.bottom}, {box.right, box.bottom}, {box.right, box.top}, {box.left, box.top}};
}

Mark shape(std::vector<Point> points, bool closed, std::optional<drawing::LineLook> line, std::optional<drawing::FillLook> fill) {
    drawing::Shape made;
    made.rings.push_back(std::move(points));
    made.closed = closed;
    made.line = std::move(line);
    made.fill = std::move(fill);
    return made;
}

}  // namespace

Mark line_of(std::vector<Point> points, const drawing::LineLook& look) {
    return shape(std::move(points), false, look, std::nullopt);
}

Mark area_of(std::vector<Point> points, const drawing::FillLook& fill) {
    return shape(std::move(points), true, std::nullopt, fill);
}

Mark outlined_area(std::vector<Point> points, const drawing::FillLook& fill, const drawing::LineLook& line) {
    return shape(std::move(points), true, line, fill);
}

Mark box_outline(const Box& box, const drawing::LineLook& look) { return shape(corners(box), true, look, std::nullopt); }

Mark box_area(const Box& box, const drawing::FillLook& fill) { return area_of(corners(box), fill); }

Mark disc(const Point& centre, double radius_mm, const drawing::FillLook& fill) {
    return area_of(drawing::circle(centre, radius_mm), fill);
}

Mark ring(const Point& centre, double radius_mm, const drawing::LineLook& line, const drawing::FillLook& fill) {
    return outlined_area(drawing::circle(centre, radius_mm), fill, line);
}

Mark words(const Point& at, std::string text, const drawing::TextLook& look, drawing::Anchor anchor, double halo_mm) {
    drawing::Text made;
    made.at = at;
    made.text = std::move(text);
    made.look = look;
    made.anchor = anchor;
    made.halo_mm = halo_mm;
    return made;
}

drawing::FillLook plain(const drawing::Colour& colour) {
    drawing::FillLook fill;
    fill.colour = colour;
    return fill;
}

drawing::LineLook with_colour(drawing::LineLook look, const drawing::Colour& colour) {
    look.colour = colour;
    return look;
}

drawing::TextLook with_colour(drawing::TextLook look, const drawing::Colour& colour) {
    look.colour = colour;
    return look;
}

drawing::Colour paled(const drawing::Colour& colour, double share) {
    const auto mixed = [share](int part) { return static_cast<int>(std::lround(255.0 + share * (part - 255.0))); };
    return {mixed(colour.red), mixed(colour.green), mixed(colour.blue)};
}

Box box_of_words(const drawing::Text& text, const drawing::FontMetrics& fonts) {
    const double width = drawing::text_width_mm(fonts, text.look, text.text);
    const double up = drawing::cap_height_mm(fonts, text.look);
    const double down = fonts.descent * text.look.size_pt * drawing::mm_per_point;
    const double before = text.anchor == drawing::Anchor::left     ? 0.0
                          : text.anchor == drawing::Anchor::centre ? width / 2.0
                                                                   : width;
    if (text.upright) return {text.at.x - up, text.at.y - before, text.at.x + down, text.at.y - before + width};
    return {text.at.x - before, text.at.y - down, text.at.x - before + width, text.at.y + up};
}

void append(Marks& all, Marks more) {
    all.insert(all.end(), std::make_move_iterator(more.begin()), std::make_move_iterator(more.end()));
}

void put(std::vector<drawing::Item>& items, Layer layer, std::size_t window, Marks marks) {
    for (Mark& mark : marks) {
        drawing::Item item;
        item.mark = std::move(mark);
        item.layer = static_cast<std::size_t>(layer);
        item.window = window;
        items.push_back(std::move(item));
    }
}

void put(drawing::Sheet& sheet, Layer layer, std::size_t window, Marks marks) {
    put(sheet.items, layer, window, std::move(marks));
}

}  // namespace selvage::sheets
