#pragma once

#include "sheets/compose.h"
#include "sheets/table_page.h"

#include <string>

namespace selvage::sheets {

// How often the vein was there at drilled holes, by the chance that all the other holes gave it: a line a vein, and one of all
// veins where there are several. No row where no vein has a hole to tell.
TypesetTable chance_table(const Results& results);

// The same of all veins in words: "of 14 places given 0.75 to 0.9, 12 had the vein; ..."; empty where nothing is to tell.
//   with_expected  beside each count the one that the chances lead to expect
std::string told_chances_words(const Results& results, bool with_expected);

}  // namespace selvage::sheets
