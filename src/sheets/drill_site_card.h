#pragma once

#include "sheets/card_facts.h"
#include "sheets/card_way.h"
#include "sheets/page.h"
#include "sheets/section_set.h"

#include <vector>

namespace selvage::sheets {

// The card that goes to the rig: both sides of one A4 sheet, two pages. The front is read at arm's length; the back has the
// pictures, the hole's expected line, the caution in full and the signatures.
//   number, count: of the cards of this pack
std::vector<drawing::Sheet> drill_site_card(const CardFacts& facts, std::size_t number, std::size_t count, const Results& results,
                                            const RunFacts& run, const SectionSet& sections, const Tools& tools);

// The two sides, each by itself.
drawing::Sheet card_front(const CardFacts& facts, std::size_t number, std::size_t count, const Results& results,
                          const RunFacts& run, const Tools& tools);
drawing::Sheet card_back(const CardFacts& facts, std::size_t number, std::size_t count, const Results& results,
                         const RunFacts& run, const SectionSet& sections, const Tools& tools);

// What the front tells of the way; the back goes on with the rest.
WayRows way_on_front(const CardFacts& facts, const Results& results, const Tools& tools);

}  // namespace selvage::sheets
