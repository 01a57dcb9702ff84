#pragma once

#include "sheets/card_depth_marks.h"

#include <string>
#include <vector>

// The dangers under a card's depth line.
namespace selvage::sheets {

// "a", "b" ... of the dangers in their order; from the 27th on "z".
std::string danger_letter(std::size_t number);

// A danger's box and where its letter stands. Both keep right under the axis where no label is in their way, else under all
// labels.
struct DangerPlace {
    std::size_t danger = 0;
    double left = 0.0, right = 0.0, letter = 0.0;  // mm
    bool high = false;
};
std::vector<DangerPlace> danger_places(const CardFacts& facts, const std::vector<DepthMark>& marks, const DepthScale& scale);
// How far down from the axis they reach where the labels reach so far down, mm.
double dangers_depth(const std::vector<DangerPlace>& places, double labels_depth);

void draw_dangers(CardPage& page, const CardFacts& facts, const std::vector<DangerPlace>& places, const DepthScale& scale,
                  double axis, double labels_depth, const Tools& tools);

}  // namespace selvage::sheets
