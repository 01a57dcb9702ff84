#pragma once

#include "sheets/card_facts.h"
#include "sheets/card_page.h"

namespace selvage::sheets {

// What the hole should meet, by depth: veins above the line, dangers with their letters below it, call and stop through it.
void draw_depth_line(CardPage& page, const CardFacts& facts, const Results& results, const Tools& tools);

// The height that it takes, mm: less where there is no danger to tell.
double depth_line_height(const CardFacts& facts);

// "a", "b" ... of the dangers in their order; from the 27th on "z".
std::string danger_letter(std::size_t number);

}  // namespace selvage::sheets
