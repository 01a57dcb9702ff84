#pragma once

#include "drawing/style.h"

#include <array>
#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

// Measuring text before it is drawn. The tables are read once from the fonts and shared read-only.
namespace selvage::drawing {

struct FontMetrics {
    // Advance width of each code point up to U+FFFF, thousandths of the type size, for each FontFace; 0 where the face lacks it.
    std::array<std::vector<int>, 4> advances;
    double cap_height = 0.714;  // share of the type size
    double descent = 0.24;      // below the base line, positive
};

// The text as it can be drawn with a face: what the face lacks, what is not UTF-8 and what lies over U+FFFF becomes "?", other
// kinds of blank and hyphen become the plain ones. Nothing ever disappears or shows as an empty box.
std::string drawable(const FontMetrics& fonts, FontFace face, std::string_view utf8);

// The code points that are drawn as "?" because the face lacks them or they lie over U+FFFF, in the order in which they stand.
std::vector<unsigned> missing_letters(const FontMetrics& fonts, FontFace face, std::string_view utf8);

constexpr double mm_per_point = 25.4 / 72.0;

// Width of a text on paper, mm.
double text_width_mm(const FontMetrics& fonts, const TextLook& look, std::string_view utf8);
// Height of its capitals, mm.
double cap_height_mm(const FontMetrics& fonts, const TextLook& look);
// The text broken at blanks into lines no wider than width_mm; a longer word starts a line of its own and is broken after a
// hyphen or, where none stands well, anywhere.
std::vector<std::string> wrapped(const FontMetrics& fonts, const TextLook& look, std::string_view utf8, double width_mm);
// The text cut at the end with "…" so that it fits.
std::string shortened(const FontMetrics& fonts, const TextLook& look, std::string_view utf8, double width_mm);

}  // namespace selvage::drawing
