#pragma once

#include "sheets/compose.h"
#include "sheets/grade_classes.h"
#include "sheets/marks.h"

#include <optional>
#include <string>
#include <vector>

namespace selvage::sheets {

// What the next holes should meet, as a small table under a rule: depth, chance, thickness, grade, call and stop. It stands in
// a corner of the window that nothing else needs, else on other free paper, the nearer to the sides the better; where there is
// none, its lines are for the side list.
struct ForecastNote {
    Marks marks;
    Box box;
};
std::optional<ForecastNote> forecast_note(const std::vector<const forecast::Pierce*>& pierces, const Results& results,
                                          const GradeClasses& classes, const Box& window, const std::vector<Box>& taken_boxes,
                                          const std::vector<drawing::Segment>& taken_lines, const Tools& tools);

// The same in words, for a side list: "next holes: HC-22 call at 240, stop at 324 m; HC-23 ends before it".
std::string forecast_note_line(const std::vector<const forecast::Pierce*>& pierces, const Results& results);

}  // namespace selvage::sheets
