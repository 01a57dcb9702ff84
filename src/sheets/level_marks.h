#pragma once

#include "drawing/labels.h"
#include "sheets/legend_signs.h"
#include "sheets/level_set.h"
#include "sheets/long_section_labels.h"
#include "sheets/marks.h"
#include "sheets/opening_signs.h"
#include "sheets/paper_frame.h"
#include "sheets/stated_faults.h"

#include <string>
#include <vector>

// What lies within a level's slab. Each notes in `drawn` the signs that it used.
namespace selvage::sheets {

// Holes as far as they run within half a step of the level, an arrow at the lower end.
struct LevelTraces {
    Marks marks;
    Marks starts;  // of channels, trenches and faces, over the hits, which lie close
    struct Piece {
        std::string hole;
        std::vector<Point> line;  // downwards
        bool planned = false;
    };
    std::vector<Piece> pieces;
};
LevelTraces level_traces(const Results& results, const Level& level, double half, const PaperFrame& frame, DrawnSigns& drawn,
                         const Tools& tools);

// Hits, misses and likely pierces of the slab, dropped onto the level.
struct LevelPoints {
    std::vector<HitOnPlane> hits;
    std::vector<MissOnPlane> misses;
    std::vector<std::size_t> miss_veins;
    std::vector<PierceOnPlane> pierces;
};
LevelPoints level_points(const Results& results, const Level& level, const GradeClasses& classes);
Marks point_marks(const LevelPoints& points, const PaperFrame& frame, DrawnSigns& drawn, const Tools& tools);
std::vector<Box> point_boxes(const LevelPoints& points, const PaperFrame& frame, const Tools& tools);

// Faults where they cut the level below the ground, with a tick to the side to which they dip; name and dip on a label.
struct LevelFaults {
    Marks lines;
    std::vector<drawing::Label> names;
};
LevelFaults level_faults(const Results& results, const Level& level, const PaperFrame& frame, DrawnSigns& drawn,
                         const Tools& tools);

// Voids that holes ran into within half a step of the level, dropped onto it.
OpeningSigns level_openings(const Results& results, const Level& level, double half, const PaperFrame& frame, DrawnSigns& drawn,
                            const Tools& tools);

// Old workings as the level cuts them; of those of which nobody knows the elevation the outline.
struct LevelWorkings {
    Marks marks;
    std::vector<drawing::Label> names;  // of those that have one
};
LevelWorkings level_workings(const site::Site& site, const Level& level, const PaperFrame& frame, DrawnSigns& drawn,
                             const Tools& tools);

// The points' labels, each with how far off the level it lies, then the names of the holes that have none.
std::vector<NamedLabel> level_labels(const Level& level, const LevelPoints& points, const LevelTraces& traces,
                                     const Results& results, const GradeClasses& classes, const PaperFrame& frame,
                                     const Tools& tools);

}  // namespace selvage::sheets
