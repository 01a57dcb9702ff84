#pragma once

#include "drawing/labels.h"
#include "sheets/legend_signs.h"
#include "sheets/level_set.h"
#include "sheets/marks.h"
#include "sheets/paper_frame.h"

#include <optional>
#include <vector>

// A vein on a level plan: what the level cuts of its body, and how well that is known.
namespace selvage::sheets {

struct LevelWalls {
    Marks fill;                          // the closed outline of each piece, filled
    Marks walls;                         // its walls by line style of doubt; one line where they stand closer than two lines can
    Marks band;                          // between the model's 10 % and 90 % places
    std::optional<drawing::Label> name;  // the vein's and its block's, to stand along it
};
// A bar stands where the model alone ends it: not a fault, another vein or the ground. Notes in `drawn` the signs that it used.
LevelWalls level_walls(const BodyOnLevel& body, const Level& level, const Results& results, const PaperFrame& frame,
                       DrawnSigns& drawn, const Tools& tools);

// The outlines of another level's bodies, in grey.
Marks outlines_of(const Level& level, const PaperFrame& frame, const Tools& tools);
// Their names and the level's, in grey: "Tinker, 550 m".
std::vector<drawing::Label> outline_names(const Level& level, const Results& results, const PaperFrame& frame,
                                          const Tools& tools);

}  // namespace selvage::sheets
