#pragma once

#include "sheets/grade_classes.h"
#include "sheets/table_page.h"

#include <string>

namespace selvage::sheets {

// Where the next holes should pierce, by rank: the shares by which it is ranked and their sum, the place, the collar of a
// straight hole that gets there, how long that is and what it passes. Costs are left out where the project sets none: they would
// be the lengths again.
TypesetTable step_out_table(const Results& results, const GradeClasses& classes);

// The holes that a rank's would pass or start beside nearer than the clearance, and those left out by an error: "starts close
// beside K-03 1.3 m off at 4 m". Empty: none.
std::string holes_beside_words(const planning::StepOut& step_out, const Results& results);

// What the score is made of, with the project's weights: "1 x what it teaches + 0.5 x what it is worth".
std::string score_words(const settings::Plan& plan);

}  // namespace selvage::sheets
