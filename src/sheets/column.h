#pragma once

#include "sheets/marks.h"

#include <cstddef>

namespace selvage::sheets {

// The blocks of the column, top to bottom: changed, key plan, classes, legend, side list; each under a rule.
struct ColumnMarks {
    Marks marks;
    Box key_plan;  // where its picture stands; empty where there is none, or no room for it
};

// How many lines of its side list the column holds, with a key plan of the least height.
std::size_t side_list_room(PageContent content, const PageBoxes& boxes, const Tools& tools);

// Whether its classes, its legend and, of its side list, what at the least says where the rest is, have room without a key plan.
bool column_holds(PageContent content, const PageBoxes& boxes, const Tools& tools);

// Where not even a poor key plan has room it is left out.
ColumnMarks column_marks(PageContent asked, const PageBoxes& boxes, const Tools& tools);

}  // namespace selvage::sheets
