#pragma once

#include "sheets/card_facts.h"
#include "sheets/card_page.h"
#include "sheets/card_way.h"

#include <cstddef>
#include <string>
#include <vector>

namespace selvage::sheets {

// What the front has no room for: dangers, two beside each other where all are short enough, then sentences.
struct Further {
    struct Told {
        std::string letter, words;  // the letter of those that stand on the front's line of depths
    };
    std::vector<Told> dangers;
    std::size_t abreast = 2;
    std::vector<std::string> lines;

    std::size_t danger_rows() const { return (dangers.size() + abreast - 1) / abreast; }
    double height() const;  // mm
};

// No higher than the room, mm: of the dangers that the front's line of depths leaves out too, the last ones are only counted.
Further further_of(const CardPage& page, const CardFacts& facts, const Results& results, const WayRows& front, double room,
                   const Tools& tools);

void write_further(CardPage& page, const Further& further);

}  // namespace selvage::sheets
