#pragma once

#include "drawing/labels.h"
#include "faults/blocks.h"
#include "sheets/doubt.h"
#include "sheets/legend_signs.h"
#include "sheets/marks.h"
#include "sheets/page.h"

#include <Eigen/Core>

#include <functional>
#include <set>
#include <string>
#include <vector>

// The faults that the project file states, as lines on whatever plane a sheet draws.
namespace selvage::sheets {

struct StatedFault {
    struct Stretch {
        std::vector<Point> line;
        WallStyle style = WallStyle::accurate;
    };
    std::string name;
    std::vector<Point> line;                            // on paper, mm
    Eigen::Vector3d normal = Eigen::Vector3d::UnitZ();  // towards the hanging wall
    std::vector<Stretch> stretches;                     // the same, by how well the fault's place is known there
    std::vector<std::vector<Point>> band;               // edges of what holds it in 8 of 10, below the ground; none near the line
};

// Where a place on paper lies, m relative to the project origin: even over the paper, as every sheet's plane is.
using PlaceOnSheet = std::function<Eigen::Vector3d(const Point&)>;

// The faults that cut the sheet's plane within the window, and below the ground where that is not null.
std::vector<StatedFault> stated_faults(const Results& results, const PlaceOnSheet& place, const Box& window,
                                       const site::Ground* ground);
// The same on the ground itself, seen from above, where a topography is given.
std::vector<StatedFault> faults_on_ground(const Results& results, const PlaceOnSheet& place, const Box& window);

// How well the place of a fault at which a block ends is known, near a point of that end, on a plane with this unit normal.
WallStyle style_of_end(const faults::Blocks& blocks, std::size_t block, const Eigen::Vector3d& point,
                       const Eigen::Vector3d& plane_normal, double metres_per_mm);
const char* fault_role(WallStyle style);
Sign fault_sign(WallStyle style);
// The legend's signs for how well their places are known.
std::set<Sign> fault_signs(const std::vector<StatedFault>& faults);
Marks fault_marks(const std::vector<StatedFault>& faults, const Tools& tools);
// The edges of the bands.
drawing::LineLook fault_band_look(const Tools& tools);
Marks fault_bands(const std::vector<StatedFault>& faults, const Tools& tools);
// Faults as what words keep off; a leader across one costs as much as one across four traces.
void add_faults(drawing::Obstacles& obstacles, const Marks& faults);
// On a map with north up: a tick down the dip amid the line; and "Cross Fault, dip 76°".
drawing::Mark dip_tick(const StatedFault& fault, const Tools& tools);
std::string name_with_dip(const StatedFault& fault);
// The name of a fault, or of another line, to stand anywhere beside it.
// `note`: a line under it, where that is not empty.
drawing::Label line_label(const std::string& name, const std::vector<Point>& line, const Tools& tools,
                          const std::string& note = "");
// "older: does not cut Sorrel", of those of the veins (numbers in Results::veins) that the fault is older than; else nothing.
std::string older_words(const Results& results, const std::string& fault, const std::set<std::size_t>& veins);

}  // namespace selvage::sheets
