#pragma once

#include "drawing/sheet.h"
#include "drawing/text_width.h"

#include <cstddef>
#include <string>
#include <vector>

// Label placement: beside the point in eight places and two distances, then on a leader, then in the side list; nothing overlaps.
namespace selvage::drawing {

// Words that follow on in the same line in another look: a figure after a name, a boxed "new".
struct LabelPart {
    std::string text;
    TextLook look;
    bool boxed = false;  // in a small frame; the frame is the caller's to draw, see frames_of
};

struct LabelLine {
    std::string text;
    TextLook look;
    std::vector<LabelPart> rest = {};
};

// A label that belongs to a point of the drawing.
struct Label {
    std::string owner;               // what is looked up in the side list: "K-07 North"
    Point at;                        // the point, mm
    std::vector<Point> also_at;      // other points that it may stand beside as well: places along the line that it names
    std::vector<Point> not_at;       // signs of other things: near one its words would seem that one's
    std::vector<Segment> not_along;  // lines of other things: the same
    std::vector<Point> number_at;    // where its number may stand if it is listed, the best first; none: at its point
    double clear_mm = 1.5;           // half the size of the point's own symbol
    std::vector<LabelLine> lines;    // top to bottom
    LabelLine short_line;            // what stands at its point, not a number, if it is listed and there is room; empty: none
    double worst_place = 20.0;       // a place beside its point that costs more is not taken: 0 is the best, 8 a leader's worth
    double soft_weight = 1.0;        // how much more dearly than other labels it stands on a soft line
    double foreign_weight = 1.0;     // how much more dearly than other labels it stands near what is not its own
    int priority = 0;                // higher is placed first: news 5, planned and active 4, hits 3, misses 2, ticks 1
    bool may_lead = true;            // may stand away from its point, on a leader
    bool may_be_listed = true;       // may move to the side list, a number standing at its point
    std::string head_symbol;         // name of a symbol drawn at the label's head ("" none); `head_mm` wide
    double head_mm = 0.0;
    std::string listed_text;  // its line in the side list; empty: its lines joined
};

// What labels must keep clear of.
struct Obstacles {
    std::vector<Box> boxes;           // symbols, frames, words already there: never covered
    std::vector<Segment> lines;       // traces, walls: never under text
    std::vector<Segment> soft_lines;  // grid, isolines: avoided where it costs nothing
    std::vector<Point> points;        // of other things: words near one would seem its
};

enum class Placing { beside, leader, listed };

struct PlacedLabel {
    std::size_t label = 0;  // index into the asked labels
    Placing placing = Placing::beside;
    Box box;                       // of the words (and the head symbol); of the number or the short line where listed; empty
                                   // where none is drawn
    Anchor anchor = Anchor::left;  // how the lines are set within the box
    std::vector<Point> leader;     // from the point to the label; empty beside
    std::size_t number = 0;        // 1, 2 ... in the side list; 0 where not listed, or listed by its short line or without room
                                   // for its number, or (may_be_listed false) left out
    bool in_short = false;         // listed, its short line standing at its point
};

struct PlacedLabels {
    std::vector<PlacedLabel> labels;  // in the order of the asked ones
    LabelFigures figures;
};

struct LabelRules {
    Box window;                          // labels stay inside
    double near_mm = 1.2, far_mm = 2.8;  // the two distances of the eight places
    double leader_max_mm = 58.0;
    double apart_mm = 0.9;                                    // between any two labels, twice as much side by side
    double line_height = 1.28;                                // of the type size, from line to line
    TextLook number_look{7.0, FontFace::bold, {26, 26, 26}};  // of a listed label's number at its point
    // Where more labels than this find no place at the first go, they are left as listed, without numbers.
    std::size_t give_up_over = static_cast<std::size_t>(-1);
};

// Places labels. Small groups of conflicting ones are solved exactly, large ones greedily and then by annealing with a fixed
// seed. Same input, same places.
PlacedLabels place_labels(const std::vector<Label>& labels, const Obstacles& obstacles, const LabelRules& rules,
                          const FontMetrics& fonts);

// The text items of a placed label (and its halo), in order; the leader and the head symbol are the caller's to draw. Of a
// listed one: its short line or its number.
std::vector<Text> texts_of(const Label& label, const PlacedLabel& placed, const LabelRules& rules, const FontMetrics& fonts,
                           double halo_mm);

// Where the head symbol's centre stands; only of a label beside its point or on a leader that has one.
Point head_of(const Label& label, const PlacedLabel& placed, const LabelRules& rules, const FontMetrics& fonts);

// The frames round its boxed parts.
std::vector<Box> frames_of(const Label& label, const PlacedLabel& placed, const LabelRules& rules, const FontMetrics& fonts);

}  // namespace selvage::drawing
