#pragma once

#include "sheets/marks.h"

namespace selvage::sheets {

// Title, then the fields of ISO 7200 with scale, paper, coordinates, north and run added. What the project does not say is an
// empty ruled field.
Marks title_block_marks(const Box& box, const TitleText& title, const Paper& paper, const Results& results, const RunFacts& run,
                        const Tools& tools);

// The same in one line over a slide: title, what it is, run and status; what is for signing stays away.
Marks title_bar_marks(const Box& bar, const TitleText& title, const Results& results, const RunFacts& run, const Tools& tools);
// Its "3 of 12", at the right end.
Mark bar_number_mark(const Box& bar, std::size_t number, std::size_t count, const Tools& tools);

// The value "3 of 12" in its field.
Mark sheet_number_mark(const Box& title_block, std::size_t number, std::size_t count, const Tools& tools);

}  // namespace selvage::sheets
