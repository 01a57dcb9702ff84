#pragma once

#include "sheets/marks.h"

namespace selvage::sheets {

// The blocks of the column, top to bottom: changed, key plan, classes, legend, side list; each under a rule.
struct ColumnMarks {
    Marks marks;
    Box key_plan;  // where its picture stands; empty where there is none
};
ColumnMarks column_marks(const PageContent& content, const PageBoxes& boxes, const Tools& tools);

}  // namespace selvage::sheets
