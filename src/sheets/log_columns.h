#pragma once

#include "sheets/log_layout.h"
#include "sheets/log_records.h"

#include <optional>
#include <set>
#include <string>

namespace selvage::sheets {

// What the columns of a log showed, for its legend.
struct LogSigns {
    std::set<std::string> rocks;       // folded
    std::set<std::size_t> picked;      // veins
    std::set<std::string> structures;  // "contact", "fault", "foliation": the three looks
    bool other_state = false, recovery = false, rqd = false, grades = false;
    bool said = false, forecast = false, said_goes_on = false;  // where a vein should be: of drilled ground, not yet drilled
    bool not_there = false, missed = false, left_out = false, drilling = false, certainty = false, samples = false,
         breaks = false;
};

// One stretch with its frame, depths and columns: rock, vein, structures, recovery and RQD, grades of the leading analyte with
// the samples' limits, their bars' axis over the first stretch of a column; beside the depths, what the drillers told of. Gives
// its marks and notes the signs.
Marks log_stretch(const LogStretch& stretch, const LoggedHole& hole, std::optional<std::size_t> analyte, const Results& results,
                  LogSigns& signs, const Tools& tools);

// A line broken up and down: the log goes on beyond it, at another scale or elsewhere.
std::vector<Point> break_line(double left, double right, double y);

// The bars at the ends of a fault's stroke, square to it, as on the sections, as far as they lie in the box; half: from its
// middle to an end, mm.
Marks fault_bars(const Point& middle, const Point& half, const Box& box, const Tools& tools);

// The look of a structure's tick by its kind, of three: "contact", "fault", "foliation" (all others).
std::string structure_look(const std::string& kind, const settings::CoreAngles& core_angles);

}  // namespace selvage::sheets
