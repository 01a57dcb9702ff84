#pragma once

#include "sheets/grade_classes.h"
#include "sheets/legend_signs.h"
#include "sheets/marks.h"

#include <cstddef>
#include <set>
#include <string>
#include <vector>

namespace selvage::sheets {

// A vein's long section made small, to scale: where it is modelled, every hit and miss by its sign, where the next holes should
// pierce; named are the holes asked for.
struct VeinThumbnail {
    Marks marks;   // within the window, to be clipped to it
    Marks around;  // heading, window line, scale
    Box window;
    double bottom = 0.0;     // where what follows may start: no lower than the box asked for
    drawing::LineLook edge;  // of where the vein's model ends
    double metres_per_mm = 1.0;
    std::vector<std::size_t> counts;  // of the signs drawn, by HitSign
    std::set<Sign> pierces;           // of the pierce points and targets drawn
    bool step_out = false;
    bool ground = false, ground_assumed = false, outcrops = false, faults = false;
};
// `step_outs`: as the map of the next holes. Where they should pierce, by rank; elevations along both sides and the ends by name
// and bearing; named are all that is planned or active, the misses, and where there is room beside them the hits within two hole
// spacings of a rank; how many are not, its scale says.
VeinThumbnail vein_thumbnail(std::size_t vein, const Box& box, const std::set<std::string>& named, const Results& results,
                             const GradeClasses& classes, const Tools& tools, bool step_outs = false);

// What its legend holds, besides the classes of the hits.
DrawnSigns signs_of(const VeinThumbnail& picture);
// Onto a sheet, the marks of its window clipped and measurable.
void put_thumbnail(drawing::Sheet& sheet, VeinThumbnail picture, base::LengthUnit unit);

}  // namespace selvage::sheets
