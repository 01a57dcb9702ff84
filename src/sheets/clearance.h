#pragma once

#include "planning/near_holes.h"
#include "sheets/compose.h"

#include <string>

// What other holes a planned or active hole comes too near to, told alike on every sheet.
namespace selvage::sheets {

// What of a hole is still to be drilled, m: down to its end or to the stop of a vein within its reach, whichever is deeper.
struct WayAhead {
    double from = 0.0, to = 0.0;
};
WayAhead way_ahead(const paths::Path& path, const Results& results);

planning::NearHoles near_ahead(const paths::Path& path, const Results& results);

// "HC-02 1.5 m off at 287 m, HC-07 3.0 m off at 210 m", at most four holes, "and 2 more": those that it comes nearer to than the
// clearance past their common start. Empty: none.
std::string too_near_words(const planning::NearHoles& near, const base::MapFrame& map);

}  // namespace selvage::sheets
