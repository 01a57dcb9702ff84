#pragma once

#include "sheets/overview_marks.h"
#include "sheets/page.h"

namespace selvage::sheets {

constexpr const char* overview_kind = "overview";

// All of the overview's page but its drawing.
PageContent overview_page(const Results& results, const AxonometricView& view, const LevelSet& levels, const OverviewSigns& signs,
                          const PointsInSpace& points, const GradeClasses& classes, const Tools& tools);

}  // namespace selvage::sheets
