#pragma once

#include "sheets/card_facts.h"
#include "sheets/card_page.h"

#include <string>
#include <vector>

// What lies on the way, as the front of a card tells it: where it leaves the property, holes that it comes too near to, dangers,
// workings and other holes. All in lines of one type size; what finds no room stands on the back.
namespace selvage::sheets {

struct WayRow {
    std::string letter, depths, words;
    const char* role = "card_text";
};

struct WayRows {
    std::vector<WayRow> rows;
    std::vector<std::size_t> dangers;   // places in the hole's list of those that stand here, the most harmful first
    std::vector<std::size_t> others;    // of those on the back, alike
    std::vector<std::string> left_out;  // sentences that are on the back
    double step = 0.0;                  // mm, from row to row
};

// For a part that is so high and so wide, mm.
WayRows way_rows(const CardFacts& facts, const Results& results, double height, double width, const Tools& tools);

// Writes them; the part is as high as was said.
void way_part(CardPage& page, const WayRows& way, double height);

}  // namespace selvage::sheets
