#include "pdf/content_writer.h"

#include "pdf/page_content.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace selvage::pdf {

namespace {

// Figures on a page stay below this, points: the largest page side of PDF. Beyond it nothing can be seen.
constexpr double largest_figure = 14400.0;

void append_colour(std::string& out, const drawing::Colour& colour) {
    for (const int part : {colour.red, colour.green, colour.blue}) {
        const int thousandths = (std::clamp(part, 0, 255) * 1000 + 127) / 255;
        if (thousandths == 1000)
            out += '1';
        else if (thousandths == 0)
            out += '0';
        else {
            std::string digits = std::to_string(1000 + thousandths).substr(1);
            while (digits.back() == '0') digits.pop_back();
            out += '.' + digits;
        }
        out += ' ';
    }
}

}  // namespace

void append_number(std::string& out, double value) {
    const double held = std::clamp(value, -largest_figure, largest_figure);
    long hundredths = std::lround(held * 100.0);
    if (hundredths < 0) {
        out += '-';
        hundredths = -hundredths;
    }
    const long whole = hundredths / 100, rest = hundredths % 100;
    if (whole > 0 || rest == 0) out += std::to_string(whole);
    if (rest > 0) {
        out += '.';
        out += static_cast<char>('0' + rest / 10);
        if (rest % 10 > 0) out += static_cast<char>('0' + rest % 10);
    }
}

void ContentWriter::number(double value) {
    append_number(out_, value);
    out_ += ' ';
}

void ContentWriter::length(double mm) { number(mm * points_per_mm); }

void ContentWriter::point(const drawing::Point& at) {
    length(at.x);
    length(at.y);
}

void ContentWriter::path(const std::vector<std::vector<drawing::Point>>& rings, bool closed) {
    for (const std::vector<drawing::Point>& ring : rings) {
        if (ring.size() < 2) continue;
        std::string last;
        bool first = true;
        for (const drawing::Point& at : ring) {
            std::string written;
            append_number(written, at.x * points_per_mm);
            written += ' ';
            append_number(written, at.y * points_per_mm);
            // A point that rounds to the one before adds nothing; a line of one such pair is kept, as a dot.
            if (!first && written == last && ring.size() > 2) continue;
            out_ += written;
            out_ += first ? " m " : " l ";
            first = false;
            last = std::move(written);
        }
        if (closed) out_ += "h ";
    }
}

void ContentWriter::rectangle(const drawing::Box& box) {
    point({box.left, box.bottom});
    length(box.width());
    length(box.height());
    out_ += "re ";
}

void ContentWriter::set(std::string& kept, std::string wanted) {
    if (kept == wanted) return;
    out_ += wanted;
    out_ += '\n';
    kept = std::move(wanted);
}

void ContentWriter::set_fill(const drawing::Colour& colour) {
    std::string wanted;
    append_colour(wanted, colour);
    set(state_.fill, wanted + "rg");
}

void ContentWriter::set_pattern(std::size_t number) { set(state_.fill, "/Pattern cs /P" + std::to_string(number) + " scn"); }

void ContentWriter::set_stroke(const drawing::Colour& colour, double width_mm) {
    set_stroke({width_mm, colour, {}, false}, false);
}

void ContentWriter::set_stroke(const drawing::LineLook& look, bool mitred) {
    std::string colour;
    append_colour(colour, look.colour);
    set(state_.stroke, colour + "RG");
    std::string line;
    append_number(line, look.width_mm * points_per_mm);
    line += look.round_ends ? " w 1 J " : " w 0 J ";
    line += mitred && !look.round_ends ? "0 j [" : "1 j [";
    for (const double dash : look.dash_mm) {
        append_number(line, std::max(dash, 0.0) * points_per_mm);
        line += ' ';
    }
    set(state_.line, line + "] 0 d");
}

void ContentWriter::set_text_mode(int mode) {
    if (state_.text_mode == mode) return;
    out_ += std::to_string(mode) + " Tr ";
    state_.text_mode = mode;
}

void ContentWriter::set_font(std::size_t face, double size_pt) {
    std::string wanted = "/F" + std::to_string(face) + " ";
    append_number(wanted, size_pt);
    set(state_.font, wanted + " Tf");
}

void ContentWriter::save() {
    out_ += "q\n";
    saved_.push_back(state_);
}

void ContentWriter::restore() {
    out_ += "Q\n";
    state_ = saved_.back();
    saved_.pop_back();
}

}  // namespace selvage::pdf
