#pragma once

#include "sheets/grade_classes.h"
#include "sheets/table_page.h"

namespace selvage::sheets {

// Where the next holes should pierce, by rank: what speaks for it, the place, the collar of a straight hole that gets there, and
// how long that is. Costs are left out where the project sets none: they would be the lengths again.
TypesetTable step_out_table(const Results& results, const GradeClasses& classes);

// What the score is made of, with the project's weights: "1 x what it teaches + 0.5 x what it is worth".
std::string score_words(const settings::Plan& plan);

}  // namespace selvage::sheets
