#include "pdf/page_content.h"

#include "pdf/content_writer.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <optional>
#include <tuple>

namespace selvage::pdf {

namespace {

using drawing::Box;
using drawing::Point;
using drawing::Shape;
using drawing::Text;

bool finite(const Point& p) { return std::isfinite(p.x) && std::isfinite(p.y); }

bool drawable(const Shape& shape) {
    for (const auto& ring : shape.rings)
        if (!std::all_of(ring.begin(), ring.end(), finite)) return false;
    return !shape.line || std::isfinite(shape.line->width_mm);
}

Box box_of(const Shape& shape) {
    constexpr double far = 1e9;
    Box box{far, far, -far, -far};
    for (const auto& ring : shape.rings)
        for (const Point& p : ring) box = united(box, {p.x, p.y, p.x, p.y});
    return grown(box, shape.line ? shape.line->width_mm : 0.0);
}

// From descent to ascent round the whole text, mm.
Box box_of(const Text& text, const drawing::FontMetrics& fonts) {
    const double size = text.look.size_pt * drawing::mm_per_point;
    const double width = text_width_mm(fonts, text.look, text.text);
    const double start = text.anchor == drawing::Anchor::left     ? 0.0
                         : text.anchor == drawing::Anchor::centre ? -width / 2
                                                                  : -width;
    const double below = fonts.descent * size, above = size * (fonts.cap_height + fonts.descent);
    if (text.upright) return {text.at.x - above, text.at.y + start, text.at.x + below, text.at.y + start + width};
    return {text.at.x + start, text.at.y - below, text.at.x + start + width, text.at.y + above};
}

// The code points of a text that has gone through drawing::drawable: all within U+FFFF.
std::vector<unsigned> codes_of(std::string_view utf8) {
    std::vector<unsigned> codes;
    for (const char c : utf8) {
        const unsigned byte = static_cast<unsigned char>(c);
        if (byte < 0x80U)
            codes.push_back(byte);
        else if (byte < 0xc0U)
            codes.back() = (codes.back() << 6U) | (byte & 0x3fU);
        else
            codes.push_back(byte < 0xe0U ? byte & 0x1fU : byte & 0x0fU);
    }
    return codes;
}

std::string hexadecimal(const std::vector<unsigned>& codes) {
    constexpr const char* digits = "0123456789ABCDEF";
    std::string out = "<";
    for (const unsigned code : codes)
        for (const unsigned shift : {12U, 8U, 4U, 0U}) out += digits[(code >> shift) & 0xfU];
    return out + "> Tj";
}

class PageWriter {
public:
    PageWriter(const drawing::Sheet& sheet, const drawing::FontMetrics& fonts, Resources& resources)
        : sheet_(sheet), fonts_(fonts), resources_(resources) {}

    PageContent write() {
        for (const drawing::Item& item : sheet_.items) {
            if (const Shape* shape = std::get_if<Shape>(&item.mark))
                write(*shape, item);
            else
                write(std::get<Text>(item.mark), item);
        }
        close_group();
        return {writer_.take(), std::move(links_)};
    }

private:
    // Items of one layer and window that follow each other stand in one group.
    using Group = std::tuple<std::size_t, std::size_t>;

    void open_group(const drawing::Item& item) {
        const Group wanted{item.layer, item.window};
        if (group_ == wanted) return;
        close_group();
        const std::string layer = item.layer < sheet_.layers.size() ? sheet_.layers[item.layer] : "sheet";
        writer_.op("/OC /L" + std::to_string(resources_.layer_number(layer)) + " BDC\n");
        writer_.save();
        if (const drawing::Window* window = window_of(item)) {
            writer_.rectangle(window->box);
            writer_.op("W n\n");
        }
        group_ = wanted;
    }

    void close_group() {
        if (!group_) return;
        writer_.restore();
        writer_.op("EMC\n");
        group_.reset();
    }

    const drawing::Window* window_of(const drawing::Item& item) const {
        assert(item.window <= sheet_.windows.size());
        return item.window == 0 || item.window > sheet_.windows.size() ? nullptr : &sheet_.windows[item.window - 1];
    }

    bool seen(const Box& box, const drawing::Item& item) const {
        const drawing::Window* window = window_of(item);
        return window == nullptr || overlap(box, window->box);
    }

    void write(const Shape& shape, const drawing::Item& item) {
        assert(drawable(shape) && "a point that is not finite");
        if (!drawable(shape) || !seen(box_of(shape), item)) return;
        const bool filled = shape.fill.has_value();
        const bool patterned = filled && shape.fill->pattern.mark != drawing::PatternMark::none;
        if (!filled && !shape.line) return;
        open_group(item);
        if (filled) writer_.set_fill(shape.fill->colour);
        const bool in_one = filled && shape.line && !patterned;
        if (shape.line) writer_.set_stroke(*shape.line, shape.closed);
        if (filled) {
            writer_.path(shape.rings, shape.closed);
            writer_.op(in_one ? "B*\n" : "f*\n");
        }
        if (patterned) {
            writer_.set_pattern(resources_.pattern_number(shape.fill->pattern));
            writer_.path(shape.rings, shape.closed);
            writer_.op("f*\n");
        }
        if (shape.line && !in_one) {
            writer_.path(shape.rings, shape.closed);
            writer_.op("S\n");
        }
    }

    void write(const Text& text, const drawing::Item& item) {
        assert(finite(text.at) && "a point that is not finite");
        if (text.text.empty() || !finite(text.at)) return;
        const Box box = box_of(text, fonts_);
        if (!seen(box, item)) return;
        open_group(item);
        const auto face = static_cast<std::size_t>(text.look.face);
        const std::vector<unsigned> codes = codes_of(drawing::drawable(fonts_, text.look.face, text.text));
        resources_.codes[face].insert(codes.begin(), codes.end());
        const std::string shown = hexadecimal(codes);
        const Point start = text.upright ? Point{text.at.x, box.bottom} : Point{box.left, text.at.y};
        if (text.halo_mm > 0.0) {
            writer_.op("/Artifact BMC\n");
            writer_.set_stroke({255, 255, 255}, 2.0 * text.halo_mm);
            show(text, face, start, shown, 1);
            writer_.op("EMC\n");
        }
        writer_.set_fill(text.look.colour);
        show(text, face, start, shown, 0);
        if (!text.link.empty()) links_.push_back({box, text.link});
    }

    void show(const Text& text, std::size_t face, const Point& start, const std::string& shown, int mode) {
        writer_.op("BT ");
        writer_.set_font(face, text.look.size_pt);
        writer_.set_text_mode(mode);
        if (text.upright) writer_.op("0 1 -1 0 ");
        writer_.point(start);
        writer_.op(text.upright ? "Tm " : "Td ");
        writer_.op(shown);
        writer_.op(" ET\n");
    }

    const drawing::Sheet& sheet_;
    const drawing::FontMetrics& fonts_;
    Resources& resources_;
    ContentWriter writer_;
    std::optional<Group> group_;
    std::vector<LinkArea> links_;
};

bool same(const drawing::Pattern& a, const drawing::Pattern& b) {
    return a.mark == b.mark && a.across_mm == b.across_mm && a.up_mm == b.up_mm && a.line_mm == b.line_mm && a.colour == b.colour;
}

}  // namespace

std::size_t Resources::pattern_number(const drawing::Pattern& pattern) {
    const auto at = std::find_if(patterns.begin(), patterns.end(), [&](const auto& known) { return same(known, pattern); });
    const auto number = static_cast<std::size_t>(at - patterns.begin());
    if (at == patterns.end()) patterns.push_back(pattern);
    return number;
}

std::size_t Resources::layer_number(const std::string& name) {
    const auto at = std::find(layers.begin(), layers.end(), name);
    const auto number = static_cast<std::size_t>(at - layers.begin());
    if (at == layers.end()) layers.push_back(name);
    return number;
}

PageContent page_content(const drawing::Sheet& sheet, const drawing::FontMetrics& fonts, Resources& resources) {
    return PageWriter(sheet, fonts, resources).write();
}

}  // namespace selvage::pdf
