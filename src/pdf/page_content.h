#pragma once

#include "drawing/sheet.h"
#include "drawing/text_width.h"

#include <array>
#include <cstddef>
#include <map>
#include <set>
#include <string>
#include <vector>

// A sheet as the operators of a PDF content stream (ISO 32000-1, 8 and 9). Plain text: no library is needed for it.
namespace selvage::pdf {

constexpr double points_per_mm = 72.0 / 25.4;

// The names by which the pages of one document call their resources, and what was used of them.
struct Resources {
    std::array<std::set<unsigned>, 4> codes;  // code points drawn with each face
    std::vector<drawing::Pattern> patterns;   // called "P0", "P1" ...
    std::vector<std::string> layers;          // called "L0", "L1" ...; in the order in which they are first seen

    std::size_t pattern_number(const drawing::Pattern& pattern);
    std::size_t layer_number(const std::string& name);
};

// A rectangle that leads somewhere when clicked, mm.
struct LinkArea {
    drawing::Box box;
    std::string destination;
};

struct PageContent {
    std::string operators;
    std::vector<LinkArea> links;
};

// "F0" to "F3" are the faces. Marks wholly outside their window, and marks with a figure that is not finite, are left out.
PageContent page_content(const drawing::Sheet& sheet, const drawing::FontMetrics& fonts, Resources& resources);

// The content of a pattern's cell, `across` wide and twice `up` high, in points: its marks complete at the cell's edges.
std::string pattern_content(const drawing::Pattern& pattern);

// A figure as PDF writes it: at most two decimals, no exponent, no "-0".
void append_number(std::string& out, double value);

}  // namespace selvage::pdf
