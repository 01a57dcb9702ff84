#pragma once

#include "sheets/card_facts.h"
#include "sheets/card_page.h"

namespace selvage::sheets {

// The depths that the rig works to, a line a vein: call, the range in which 8 holes of 10 meet it, and where to ask if it is not
// met. mm.
double key_depths_height(const CardFacts& facts, const Results& results);
void key_depths(CardPage& page, const CardFacts& facts, const Results& results);

}  // namespace selvage::sheets
