#pragma once

#include "sheets/card_facts.h"
#include "sheets/card_page.h"

namespace selvage::sheets {

// What the signs of the pictures on a card's back mean: those that a hole's pictures can hold, in rows from left to right. The
// first row's base line is `down` under the part's top; gives the height of them all, mm.
double write_sign_key(CardPage& page, double down, const CardFacts& facts, const Tools& tools);
double sign_key_height(const CardPage& page, const CardFacts& facts, const Tools& tools);

}  // namespace selvage::sheets
