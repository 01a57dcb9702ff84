#pragma once

#include "sheets/page.h"

#include <vector>

namespace selvage::sheets {

// Writes which sheets the pack holds, kind by kind with their numbers, into a box of its first sheet; each line leads there.
void write_contents(std::vector<drawing::Sheet>& pack, const drawing::Box& box, const Tools& tools);

}  // namespace selvage::sheets
