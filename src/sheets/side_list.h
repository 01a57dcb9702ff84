#pragma once

#include "sheets/marks.h"

#include <cstddef>
#include <functional>
#include <optional>
#include <string>
#include <vector>

// The side list: what finds no place on a drawing, line by line.
namespace selvage::sheets {

// A label that went to the side list: its number at its point, 0 where that found no room either.
struct ListedLabel {
    std::size_t number = 0;
    std::string words;
};
// Their lines, "7, tab, words" by number, then those without one.
std::vector<std::string> listed_lines(std::vector<ListedLabel> labels);

// What a last line says of the lines from `first` on. whole_lines: "also 4 CH-06 670; HC-16; passing: CH-14, CH-15: see the
// tables", of a line with a number what stands before its colon, of one with another bold part that alone, others whole.
// names: the others are counted: "also 4 CH-06 670; HC-16; and 1 more: ...". counted: "and 3 more: ...".
enum class LeftOut { whole_lines, names, counted };
std::string left_out_words(const std::vector<std::string>& lines, std::size_t first, LeftOut how);

// A line set to a width: what stands before its tab in bold, the rest broken.
struct SideLine {
    std::string strong;
    std::vector<std::string> rest;
    double indent = 0.0;  // of the rest, mm
};

// Lines "bold part, tab, rest", or without a tab; all rests start at one indent. width: mm.
std::vector<SideLine> set_side_list(const std::vector<std::string>& lines, double width, const Tools& tools);

// How many lines of type they take.
std::size_t rows_of(const std::vector<SideLine>& lines);

// Lines that the column does not hold, on free paper of the drawing: in the narrowest of three shapes for which `place`, given a
// width and height in mm, finds a box.
struct ContinuedList {
    Marks marks;
    Box box;
};
std::optional<ContinuedList> continued_list(const std::vector<std::string>& lines,
                                            const std::function<std::optional<Box>(double, double)>& place, const Tools& tools);

// Written downwards from the first one's base line, `step` mm from line to line.
Marks side_list_marks(const std::vector<SideLine>& lines, const Point& first_base, double step, const Tools& tools);

}  // namespace selvage::sheets
