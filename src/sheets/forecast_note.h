#pragma once

#include "sheets/compose.h"
#include "sheets/grade_classes.h"
#include "sheets/marks.h"

#include <optional>
#include <vector>

namespace selvage::sheets {

// What the next holes should meet, as a small table under a rule: depth, chance, thickness, grade, call and stop. It stands in
// a corner of the window that nothing else needs; where there is none, it is left out (the forecasts have their table).
struct ForecastNote {
    Marks marks;
    Box box;
};
std::optional<ForecastNote> forecast_note(const std::vector<const forecast::Pierce*>& pierces, const Results& results,
                                          const GradeClasses& classes, const Box& window, const std::vector<Box>& taken_boxes,
                                          const std::vector<drawing::Segment>& taken_lines, const Tools& tools);

}  // namespace selvage::sheets
