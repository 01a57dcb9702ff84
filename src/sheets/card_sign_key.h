#pragma once

#include "sheets/card_facts.h"
#include "sheets/card_page.h"

#include <set>

namespace selvage::sheets {

// What the pictures on a card's back hold, in the order in which their key tells it.
enum class CardSign {
    collar,
    vein_due,
    target,
    drilled,
    to_drill,
    past_end,
    other_plan,
    other_hole,
    too_near,
    ground,
    property,
    off_picture,  // words alone: how far a hole lies behind or in front of the picture
};
using CardSigns = std::set<CardSign>;

// What those signs mean, in rows from left to right. The first row's base line is `down` under the part's top.
void write_sign_key(CardPage& page, double down, const CardSigns& drawn, const CardFacts& facts, const Tools& tools);
// The height of its rows, mm.
double sign_key_height(const CardPage& page, const CardSigns& drawn, const CardFacts& facts, const Tools& tools);

}  // namespace selvage::sheets
