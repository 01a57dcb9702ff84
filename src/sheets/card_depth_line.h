#pragma once

#include "sheets/card_facts.h"
#include "sheets/card_page.h"

namespace selvage::sheets {

// What the hole should meet, by depth: veins above the line, dangers with their letters below it, call, ask and stop on
// flags under it, figures along it. It ends at the hole's planned end, or goes on dashed where the range of a vein does.
void draw_depth_line(CardPage& page, const CardFacts& facts, const Results& results, const Tools& tools);

// The height that it takes, mm, by the lines of its words, the rows of its labels, and whether there is a danger to tell.
double depth_line_height(const CardFacts& facts, const Results& results, const Tools& tools);

}  // namespace selvage::sheets
