#pragma once

#include "sheets/card_facts.h"
#include "sheets/card_page.h"
#include "sheets/card_sign_key.h"
#include "sheets/section_set.h"

namespace selvage::sheets {

// The two small pictures on a card's back, each to scale, within its box: the hole from the side in its own plane (of an active
// one what is still to come alone, where that gives a larger scale), and from above. Both hold the hole as far as it is drilled
// and as it is expected, the veins and faults where the picture's plane cuts them (from above: at the level of the first pierce),
// other holes near by, ground and property. Each gives the signs that it holds.
CardSigns draw_side_view(CardPage& page, const Box& box, const CardFacts& facts, const SectionSet& own, const Results& results,
                         const Tools& tools);
CardSigns draw_view_from_above(CardPage& page, const Box& box, const CardFacts& facts, const Results& results,
                               const Tools& tools);

}  // namespace selvage::sheets
