#pragma once

#include "sheets/marks.h"
#include "sheets/page.h"
#include "tables/records.h"

#include <set>
#include <string>
#include <vector>

// Signs of the legend, drawn by the same looks as the drawing. A sheet notes each sign when it draws it; the legend holds those
// and no others.
namespace selvage::sheets {

enum class Sign {
    // hole
    collar_drilled,
    collar_active,
    collar_planned,
    sample_start,  // of a channel, trench or face
    trace_in_slab,
    trace_run_on,
    trace_off_slab,
    trace_on_plan,
    vein_intercept,
    end_of_hole,
    drilled_to,
    // planned or active: not yet drilled
    planned_trace,
    planned_fan,
    planned_bar,
    planned_depths,
    planned_pierce,
    beyond_end,
    less_likely_pierce,
    step_out,
    active_pierce,
    pierce_round_sign,
    planned_fault,  // stretch of a hole's way
    target,
    too_near,
    known_opening,
    planned_ellipse,
    // vein
    wall_accurate,
    wall_approximate,
    wall_inferred,
    questionable,
    single_line,
    vein_fill,
    band,
    model_end,
    fault_plane,  // whole, in space
    // fault, by how well its place is known
    fault_accurate,
    fault_approximate,
    fault_inferred,
    fault_band,
    // at apparent dip
    contact,
    fault,
    foliation,
    untrusted_structure,
    // samples, ground
    silver_bars,
    ground,
    ground_assumed,
    ground_contour,
    property,
    workings,
    workings_in_slab,
    workings_near_vein,
    workings_on_plan,
    workings_of_unknown_depth,
    outcrop,
    section_line,
    name_figure,
    little_core,
    north
};

struct DrawnSigns {
    std::set<Sign> signs;
    std::set<std::string> rocks;         // as logged, folded for the look
    std::set<std::size_t> veins;         // numbers in Results::veins, of what is drawn in their colours
    std::set<std::size_t> picked;        // of veins whose picks are shown in the rock strip
    std::set<tables::HoleType> sampled;  // kinds of what is no drill hole, of which starts are drawn
    bool step_outs_here = false;         // on the sheet of next holes itself
    double metres_per_mm = 1.0;
    bool faults_at_ground = false;        // their lines are where they reach it
    double contour_interval = 0.0;        // of the ground, in the project's unit
    double depth_tick = 20.0;             // in the project's unit
    std::string name_quantity;            // what the figure after a hole's name is: "silver × true thickness, g/t·m"
    std::vector<std::string> rock_order;  // rocks in the order in which they are shown; empty: alphabetical
};

// One sign with its words; `drawn` gives the figures that the words need.
LegendEntry sign_entry(Sign sign, const DrawnSigns& drawn, const Results& results, const Tools& tools);
// All groups that are not empty, in a fixed order.
std::vector<LegendGroup> legend_groups(const DrawnSigns& drawn, const Results& results, const Tools& tools);

// The look of a rock: its own, or one of the others in turn, by the alphabetical place among the project's rocks without one.
drawing::FillLook rock_look(const std::string& rock, const Results& results, const Tools& tools);
drawing::Colour vein_colour(std::size_t vein, const Tools& tools);
drawing::Colour vein_pale(std::size_t vein, const Tools& tools);

}  // namespace selvage::sheets
