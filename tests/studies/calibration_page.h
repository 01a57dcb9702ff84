#pragma once

#include "drawing/sheet.h"
#include "drawing/style.h"
#include "drawing/text_width.h"
#include "studies/study.h"

#include <vector>

namespace selvage::studies {

// One A3 page: a table for each study, with what its figures should be and are, and a chart of said against came.
drawing::Sheet calibration_page(const std::vector<Study>& studies, const drawing::Style& style,
                                const drawing::FontMetrics& fonts);

}  // namespace selvage::studies
