#pragma once

#include "drawing/labels.h"
#include "sheets/grade_classes.h"
#include "sheets/legend_signs.h"
#include "sheets/marks.h"
#include "sheets/opening_signs.h"
#include "sheets/paper_frame.h"
#include "sheets/section_set.h"

#include <string>
#include <vector>

// The parts of a plan. Each notes in `drawn` the signs that it used.
namespace selvage::sheets {

// Traces from above: solid where surveyed, dashed where run on, dotted where not drilled.
Marks plan_traces(const Results& results, const PaperFrame& frame, DrawnSigns& drawn, const Tools& tools);
Marks plan_collars(const Results& results, const PaperFrame& frame, DrawnSigns& drawn, const Tools& tools);
// Hits and misses where they are, by class; likely pierce points.
Marks plan_hits(const Results& results, const GradeClasses& classes, const PaperFrame& frame, DrawnSigns& drawn,
                const Tools& tools);

// Danger signs where planned and active holes come too near to others, named: "HC-32: HC-02 1.5 m off at 287 m".
struct PlanDangers {
    Marks marks;
    std::vector<drawing::Label> names;
    std::vector<Box> boxes;
};
PlanDangers plan_dangers(const Results& results, const PaperFrame& frame, DrawnSigns& drawn, const Tools& tools);

// Voids that holes ran into, dropped onto the plan, named with their depths.
OpeningSigns plan_openings(const Results& results, const PaperFrame& frame, DrawnSigns& drawn, const Tools& tools);

// Strike bar, dip tick and the dip's figure at each outcrop that has an attitude, else its triangle. The figure stands on the
// side to which it dips, or else where it touches nothing of `lines`, no sign and no other outcrop.
struct PlanOutcrops {
    Marks marks;
    std::vector<Box> boxes;
    bool any_attitude = false;
};
PlanOutcrops plan_outcrops(const Results& results, const std::vector<drawing::Segment>& lines, const std::vector<Box>& signs,
                           const PaperFrame& frame, DrawnSigns& drawn, const Tools& tools);

// Section lines as far as the data reach within a box of the window, their names at both ends; an end is drawn in where something
// taken is in its name's way.
struct PlanSections {
    Marks lines, names;
    std::vector<Box> boxes;  // of the names
};
PlanSections plan_sections(const SectionSet& sections, const std::vector<Eigen::Vector3d>& data, const std::vector<Box>& taken,
                           const PaperFrame& frame, const Box& within, DrawnSigns& drawn, const Tools& tools);

// Pads: small open squares.
constexpr double pad_half_mm = 1.5;
Marks pad_symbol(const Point& at, const Tools& tools);
Marks plan_pads(const Results& results, const PaperFrame& frame, const Tools& tools);

Point on_plan(const PaperFrame& frame, const Eigen::Vector3d& point);
bool is_on_plan(const PaperFrame& frame, const Point& at);  // well within the window

}  // namespace selvage::sheets
