#pragma once

#include "drawing/labels.h"
#include "sheets/marks.h"
#include "sheets/paper_frame.h"
#include "sheets/plan_marks.h"
#include "sheets/plan_veins.h"

#include <string>
#include <vector>

// Names on a plan.
namespace selvage::sheets {

// Holes that start so near each other that one label names them all.
struct CollarGroup {
    Point at;  // of the first
    std::vector<std::string> names;
    std::vector<Point> collars;  // of each
    bool planned = true;         // all of them
};

std::vector<CollarGroup> collar_groups(const Results& results, const PaperFrame& frame);

// Collars, then the veins at the ground, the traces that start where others do, pierces that their holes do not come to, and the
// pads.
std::vector<drawing::Label> plan_labels(const Results& results, const std::vector<CollarGroup>& groups,
                                        const std::vector<VeinAtGround>& veins, const PaperFrame& frame, const Tools& tools);

}  // namespace selvage::sheets
