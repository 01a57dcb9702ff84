#pragma once

#include "sheets/marks.h"

#include <cstddef>
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

// Of the lines from `first` on, whom they are about, in one line: "also 4 CH-06 670; 5 CH-07 305; HC-16: see the intercept
// table". Of a line with a bold part that is what stands before its colon, or the bold part alone if it is no number; others
// stand whole.
std::string left_out_names(const std::vector<std::string>& lines, std::size_t first);

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

// Written downwards from the first one's base line, `step` mm from line to line.
Marks side_list_marks(const std::vector<SideLine>& lines, const Point& first_base, double step, const Tools& tools);

}  // namespace selvage::sheets
