#pragma once

#include "sheets/page.h"

#include <cstddef>
#include <string>
#include <vector>

namespace selvage::sheets {

// Sheets of one kind that follow one another in a pack, by their places in it.
struct SheetGroup {
    std::size_t first = 0, last = 0;
    std::string words;  // "long sections"
};
std::vector<SheetGroup> sheet_groups(const std::vector<drawing::Sheet>& pack);

// Writes which sheets the pack holds, kind by kind with their numbers, into a box of its first sheet; each line leads there.
void write_contents(std::vector<drawing::Sheet>& pack, const drawing::Box& box, const Tools& tools);

}  // namespace selvage::sheets
