#include "drawing/label_layout.h"

#include <algorithm>

namespace selvage::drawing {

namespace {

// Ascenders and brackets stand this much over the capitals, share of the type size.
constexpr double over_capitals = 0.05;
// The head symbol from the words, the parts of a line from each other, a frame round its words; mm.
constexpr double head_gap_mm = 1.0;
constexpr double part_gap_mm = 1.2;
constexpr double frame_gap_mm = 0.55;

double size_mm(const TextLook& look) { return look.size_pt * mm_per_point; }

// A line's words in order, with where each starts.
struct SetPart {
    const std::string* text;
    const TextLook* look;
    bool boxed;
    double start;  // from the line's left end, mm
    double width;
};

struct SetLine {
    std::vector<SetPart> parts;
    double width = 0.0;
};

SetLine set_line(const LabelLine& line, const FontMetrics& fonts) {
    SetLine set;
    const auto add = [&](const std::string& text, const TextLook& look, bool boxed) {
        if (text.empty()) return;
        if (!set.parts.empty()) set.width += part_gap_mm;
        if (boxed) set.width += frame_gap_mm;
        set.parts.push_back({&text, &look, boxed, set.width, text_width_mm(fonts, look, text)});
        set.width += set.parts.back().width + (boxed ? frame_gap_mm : 0.0);
    };
    add(line.text, line.look, false);
    for (const LabelPart& part : line.rest) add(part.text, part.look, part.boxed);
    return set;
}

double largest_size_mm(const LabelLine& line) {
    double size = size_mm(line.look);
    for (const LabelPart& part : line.rest) size = std::max(size, size_mm(part.look));
    return size;
}

double head_column(const Label& label) { return label.head_symbol.empty() ? 0.0 : label.head_mm + head_gap_mm; }

// From the box's top down to each line's base line.
std::vector<double> base_lines(const Label& label, const LabelRules& rules, const FontMetrics& fonts) {
    std::vector<double> down;
    double at = 0.0;
    for (const LabelLine& line : label.lines) {
        const double size = largest_size_mm(line);
        at += down.empty() ? size * (fonts.cap_height + over_capitals) : size * rules.line_height;
        down.push_back(at);
    }
    // A head symbol higher than the first line pushes all lines down.
    if (!down.empty() && !label.head_symbol.empty()) {
        const double middle = down.front() - fonts.cap_height * largest_size_mm(label.lines.front()) / 2.0;
        const double push = std::max(0.0, label.head_mm / 2.0 - middle);
        for (double& each : down) each += push;
    }
    return down;
}

// Where a line of that width starts, and its left end's x.
double line_start(const Label& label, const PlacedLabel& placed, double width) {
    switch (placed.anchor) {
        case Anchor::left: return placed.box.left + head_column(label);
        case Anchor::right: return placed.box.right - head_column(label) - width;
        default: return (placed.box.left + placed.box.right - width) / 2.0;
    }
}

template <typename Visit>
void each_part(const Label& label, const PlacedLabel& placed, const LabelRules& rules, const FontMetrics& fonts, Visit visit) {
    const std::vector<double> down = base_lines(label, rules, fonts);
    for (std::size_t i = 0; i < label.lines.size(); ++i) {
        const SetLine set = set_line(label.lines[i], fonts);
        const double start = line_start(label, placed, set.width);
        for (const SetPart& part : set.parts) visit(part, Point{start + part.start, placed.box.top - down[i]});
    }
}

bool shows_words(const PlacedLabel& placed) { return placed.placing != Placing::listed; }

}  // namespace

LabelSize size_of(const Label& label, const LabelRules& rules, const FontMetrics& fonts) {
    LabelSize size;
    for (const LabelLine& line : label.lines) size.width = std::max(size.width, set_line(line, fonts).width);
    size.width += head_column(label);
    const std::vector<double> down = base_lines(label, rules, fonts);
    if (down.empty()) return size;
    size.first_line_middle = down.front() - fonts.cap_height * largest_size_mm(label.lines.front()) / 2.0;
    size.height = down.back() + fonts.descent * largest_size_mm(label.lines.back());
    if (!label.head_symbol.empty()) size.height = std::max(size.height, size.first_line_middle + label.head_mm / 2.0);
    return size;
}

Label in_short(Label label) {
    label.lines = {label.short_line};
    label.head_symbol.clear();
    label.head_mm = 0.0;
    return label;
}

LabelSize size_of_number(std::size_t number, const LabelRules& rules, const FontMetrics& fonts) {
    const double height = (fonts.cap_height + over_capitals) * size_mm(rules.number_look);
    return {text_width_mm(fonts, rules.number_look, std::to_string(number)), height, height / 2.0};
}

std::vector<Text> texts_of(const Label& label, const PlacedLabel& placed, const LabelRules& rules, const FontMetrics& fonts,
                           double halo_mm) {
    std::vector<Text> texts;
    const auto set = [&](const SetPart& part, const Point& at) {
        texts.push_back({at, *part.text, *part.look, Anchor::left, false, halo_mm, ""});
    };
    if (shows_words(placed))
        each_part(label, placed, rules, fonts, set);
    else if (placed.in_short)
        each_part(in_short(label), placed, rules, fonts, set);
    else if (placed.number > 0)
        texts.push_back({{placed.box.left, placed.box.bottom},
                         std::to_string(placed.number),
                         rules.number_look,
                         Anchor::left,
                         false,
                         halo_mm,
                         ""});
    return texts;
}

Point head_of(const Label& label, const PlacedLabel& placed, const LabelRules& rules, const FontMetrics& fonts) {
    const double middle = placed.box.top - size_of(label, rules, fonts).first_line_middle;
    const bool at_right = placed.anchor == Anchor::right;
    return {at_right ? placed.box.right - label.head_mm / 2.0 : placed.box.left + label.head_mm / 2.0, middle};
}

std::vector<Box> frames_of(const Label& label, const PlacedLabel& placed, const LabelRules& rules, const FontMetrics& fonts) {
    std::vector<Box> frames;
    if (!shows_words(placed)) return frames;
    each_part(label, placed, rules, fonts, [&](const SetPart& part, const Point& at) {
        if (!part.boxed) return;
        const Box words{at.x, at.y, at.x + part.width, at.y + fonts.cap_height * size_mm(*part.look)};
        frames.push_back(grown(words, frame_gap_mm));
    });
    return frames;
}

}  // namespace selvage::drawing
