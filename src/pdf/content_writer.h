#pragma once

#include "drawing/sheet.h"

#include <string>
#include <string_view>
#include <vector>

// Writes operators of a content stream and keeps the graphics state, so that what is already set is not set again.
namespace selvage::pdf {

class ContentWriter {
public:
    void op(std::string_view text) { out_ += text; }
    void number(double value);  // as it is
    void length(double mm);     // in points
    void point(const drawing::Point& at);
    void path(const std::vector<std::vector<drawing::Point>>& rings, bool closed);
    void rectangle(const drawing::Box& box);

    void set_fill(const drawing::Colour& colour);
    void set_pattern(std::size_t number);
    void set_stroke(const drawing::LineLook& look, bool mitred);
    void set_stroke(const drawing::Colour& colour, double width_mm);
    void set_text_mode(int mode);
    void set_font(std::size_t face, double size_pt);

    // q and Q with the state that they keep.
    void save();
    void restore();

    std::string take() { return std::move(out_); }

private:
    struct State {
        std::string fill = "0 g", stroke, line, font;
        int text_mode = 0;
    };
    void set(std::string& kept, std::string wanted);

    std::string out_;
    State state_;
    std::vector<State> saved_;
};

}  // namespace selvage::pdf
