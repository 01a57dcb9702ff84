#pragma once

#include "sheets/grade_classes.h"
#include "sheets/legend_signs.h"
#include "sheets/level_set.h"
#include "sheets/page.h"
#include "site/openings.h"

#include <cstddef>
#include <string>
#include <vector>

namespace selvage::sheets {

struct LevelDrawn {
    double scale_denominator = 1000.0;
    DrawnSigns signs;
    bool above = false, arrows = false;
    std::vector<std::string> holes;       // whose traces are drawn
    std::vector<std::string> listed;      // the placer's side list
    std::vector<site::OpenedVoid> voids;  // drawn with their signs
};

// The words round a level plan; `level`: its number in the set.
PageContent level_page(const LevelSet& set, std::size_t level, const LevelDrawn& drawn, const Results& results,
                       const GradeClasses& classes, const Tools& tools);

// All levels one over the other, the highest at the top: elevation, the hits of each, this one marked.
Marks level_ladder(const LevelSet& set, std::size_t level, const Box& box, const base::MapFrame& map, const Tools& tools);

}  // namespace selvage::sheets
