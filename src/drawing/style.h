#pragma once

#include <map>
#include <string>
#include <vector>

// Looks as values. Everything a sheet draws names a role or a meaning; the style says how that looks on paper.
namespace selvage::drawing {

struct Colour {
    int red = 0, green = 0, blue = 0;  // 0 to 255
    friend bool operator==(const Colour& a, const Colour& b) { return a.red == b.red && a.green == b.green && a.blue == b.blue; }
};

enum class FontFace { regular, semibold, bold, italic };

struct TextLook {
    double size_pt = 7.0;
    FontFace face = FontFace::regular;
    Colour colour;
};

struct LineLook {
    double width_mm = 0.25;
    Colour colour;
    std::vector<double> dash_mm;  // on, off, on, off ...; empty: solid
    bool round_ends = false;      // dots are dashes of length 0 with round ends
};

// A small repeated mark at one pitch, alternate rows shifted by half, fixed to the page so that it matches the legend.
enum class PatternMark { none, dots, dashes, v_marks, slashes, pluses, circles, crosses, waves };

struct Pattern {
    PatternMark mark = PatternMark::none;
    double across_mm = 1.9, up_mm = 1.3;
    double line_mm = 0.13;
    Colour colour{112, 112, 112};
};

struct FillLook {
    Colour colour{255, 255, 255};
    Pattern pattern;
};

// How the page round a drawing is laid out.
enum class PageLayout {
    drawing,  // for print: ISO margins and fields, title block at the foot of the column
    slide     // for a screen: a narrow margin, the title in a bar over the drawing, the column over the whole height
};

struct PageLook {
    double width_mm = 0.0, height_mm = 0.0;  // 0: the paper that the project names
    double enlarged = 1.0;                   // everything on the page is so many times as large as the style's sizes say
    PageLayout layout = PageLayout::drawing;
};

// What a pack shows of what there is.
struct ContentLook {
    std::vector<std::string> sheets;  // kinds (drawing::sheet_kinds); empty: all
    bool forecasts = true;            // planned holes, where they and active ones will meet the veins
    bool step_outs = true;            // proposed holes
    bool modelled_grades = true;      // lines of equal grade x thickness and the fills between them
    bool model_doubt = true;          // why models end, bands of 80 %, tables of how models are and fit; not the walls' own
    bool public_draft = false;        // sheets are drafts of public figures: headed so, their status the project's own or blank
};

// Read from styles/*.toml; every role has a default. Roles are the keys that the style file uses: text "title", line
// "wall_accurate" ...
struct Style {
    std::string name = "default";
    std::string font_family = "Open Sans";
    std::map<std::string, TextLook> texts;
    std::map<std::string, LineLook> lines;
    std::map<std::string, Colour> colours;
    std::map<std::string, FillLook> rocks;   // by folded rock name
    std::vector<FillLook> other_rocks;       // taken in turn by rocks that have no look of their own
    std::vector<Colour> veins, veins_pale;   // by the order of veins, taken in turn
    std::vector<Colour> classes;             // of amount, low to high
    std::vector<Colour> classes_pale;        // the same, paled for areas under text
    std::map<std::string, double> sizes_mm;  // "symbol_ring", "strip_width" ...
    PageLook page;
    ContentLook content;

    // A role that the style lacks is a bug of the program (the style reader fills every role): asserts.
    const TextLook& text(const std::string& role) const;
    const LineLook& line(const std::string& role) const;
    Colour colour(const std::string& role) const;
    double size_mm(const std::string& role) const;
    bool draws(const std::string& sheet_kind) const;
};

}  // namespace selvage::drawing
