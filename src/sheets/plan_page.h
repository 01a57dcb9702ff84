#pragma once

#include "sheets/grade_classes.h"
#include "sheets/legend_signs.h"
#include "sheets/page.h"
#include "sheets/plan_marks.h"

#include <string>
#include <vector>

namespace selvage::sheets {

struct PlanDrawn {
    double scale_denominator = 1000.0;
    DrawnSigns signs;
    std::vector<std::size_t> veins;  // drawn at the ground
    bool pads = false, attitudes = false;
    std::vector<std::string> listed;      // the placer's side list
    std::vector<site::OpenedVoid> voids;  // drawn with their signs
};

// The words round a plan.
PageContent plan_page(const PlanDrawn& drawn, const Results& results, const GradeClasses& classes, const Tools& tools);

}  // namespace selvage::sheets
