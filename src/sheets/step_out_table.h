#pragma once

#include "sheets/grade_classes.h"
#include "sheets/table_page.h"

namespace selvage::sheets {

// Where the next holes should pierce, by rank: the shares by which it is ranked and their sum, the place, the collar of a
// straight hole that gets there, how long that is and what it passes. Costs are left out where the project sets none: they would
// be the lengths again.
TypesetTable step_out_table(const Results& results, const GradeClasses& classes);

// What the score is made of, with the project's weights: "1 x what it teaches + 0.5 x what it is worth".
std::string score_words(const settings::Plan& plan);

}  // namespace selvage::sheets
