#pragma once

#include "sheets/legend_signs.h"
#include "sheets/marks.h"
#include "tables/records.h"

#include <set>
#include <string>

namespace selvage::sheets {

// Where a hole starts: of a drill hole its collar, by how far it is drilled; of a channel, trench or face a small flat box. Notes
// the sign, and of what is no drill hole the kind, for the legend.
Marks start_symbol(tables::HoleType type, tables::HoleStatus status, const Point& at, DrawnSigns& drawn, const Tools& tools);
Marks sample_start_symbol(const Point& at, const Tools& tools);

// "channel", "trench", "face"; empty of a drill hole.
std::string sample_word(tables::HoleType type);
// "start of a channel, trench or face": of the kinds that occur.
std::string sample_start_words(const std::set<tables::HoleType>& kinds);

}  // namespace selvage::sheets
