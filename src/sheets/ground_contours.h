#pragma once

#include "base/units.h"
#include "sheets/isolines.h"
#include "sheets/marks.h"
#include "sheets/paper_frame.h"
#include "site/ground.h"

#include <optional>
#include <string>
#include <vector>

namespace selvage::sheets {

// Contour lines of a given topography on a plan.
struct GroundContours {
    double interval = 0.0;          // in the project's unit; 0: none are drawn
    std::vector<Isoline> numbered;  // every fifth, or all where they are few
    std::vector<Isoline> others;
    std::vector<std::string> names;  // of the levels of the numbered ones
};

// wished: interval in m; nothing: the finest of 1, 2, 5, 10 ... that leaves 5 mm between lines on the usual slope, and at most
// 30 lines. No contours where the ground is assumed.
GroundContours ground_contours(const site::Ground& ground, const PaperFrame& frame, std::optional<double> wished,
                               const base::MapFrame& map);
Marks contour_marks(const GroundContours& contours, const Tools& tools);

}  // namespace selvage::sheets
