#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <map>
#include <set>
#include <string>
#include <vector>

namespace selvage::pdf {

// A TrueType face read once: its characters, widths and outlines (OpenType specification 1.9, chapters by the tables' names).
struct TrueTypeFace {
    std::string name;                           // "OpenSans-Bold", from the file's name
    std::map<std::string, std::string> tables;  // each table's bytes by its tag
    unsigned units_per_em = 1000;
    unsigned glyph_count = 0;
    std::vector<std::uint16_t> glyphs;  // of each code point up to U+FFFF; 0 where the face lacks it
    std::vector<int> advances;          // of each glyph, thousandths of the type size
    std::vector<std::size_t> outlines;  // where each glyph starts in "glyf", and its end
    // Thousandths of the type size.
    std::array<int, 4> bounds{};  // left, bottom, right, top over all glyphs
    int ascent = 0, descent = 0, cap_height = 0;
    double italic_angle = 0.0;  // degrees
    unsigned weight = 400;      // 400 regular, 700 bold
};

// Reads a file. Throws base::MachineError where it is no TrueType file, is broken or may not be embedded.
TrueTypeFace read_face(const std::string& file);

// The lowest ink of a glyph, thousandths of the type size (negative under the base line).
int lowest_ink(const TrueTypeFace& face, std::uint16_t glyph);

// A font file with the outlines of these glyphs only (and of those that they are composed of), under their old numbers.
std::string subset_file(const TrueTypeFace& face, const std::set<std::uint16_t>& glyphs);

}  // namespace selvage::pdf
