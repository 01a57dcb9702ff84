#pragma once

#include "sheets/card_facts.h"
#include "sheets/card_page.h"

#include <algorithm>
#include <string>
#include <vector>

// The depth line of a card: its axis, and the depths to call, ask and stop at.
namespace selvage::sheets {

// From depth down the hole, m, to paper, mm.
struct DepthScale {
    double left = 0.0, right = 0.0, end = 1.0;  // mm, mm, m
    double x(double depth) const { return left + std::clamp(depth / end, 0.0, 1.0) * (right - left); }
};
constexpr double beyond_plan = 0.5;  // m: a line that goes on so far past the planned end says so

// Blocks of words from left to right, each as near to its place as its neighbours let it; `centres` are moved, mm.
void keep_apart(std::vector<double>& centres, const std::vector<double>& widths, double left, double right, double gap);

// A depth that is called, asked or stopped at. Its words end at its leader, which runs down from the axis like a pole from its
// flag; they stand in the highest row where they keep clear of other words and of leaders to lower rows.
struct DepthMark {
    std::string text;
    double depth = 0.0;                       // m
    double x = 0.0, left = 0.0, right = 0.0;  // mm, of the leader and of the words
    std::size_t row = 0;
};

// By depth; those of a vein name it where several are due.
std::vector<DepthMark> depth_marks(const CardFacts& facts, const Results& results, const std::vector<VeinAhead>& veins,
                                   const DepthScale& scale, const Tools& tools);
// How far down from the axis they reach, mm.
double marks_depth(const std::vector<DepthMark>& marks);

// On the axis at that height of the paper, mm.
void draw_depth_marks(CardPage& page, const std::vector<DepthMark>& marks, double axis, const Tools& tools);
void draw_depth_axis(CardPage& page, const CardFacts& facts, const DepthScale& scale, double axis, const base::MapFrame& map,
                     const Tools& tools);

}  // namespace selvage::sheets
