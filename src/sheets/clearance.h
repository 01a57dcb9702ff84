#pragma once

#include "planning/left_out_holes.h"
#include "sheets/compose.h"

#include <string>

// What other holes a planned or active hole comes too near to, told alike on every sheet.
namespace selvage::sheets {

// What of a hole is still to be drilled, m: down to its end or to the stop of a vein within its reach, whichever is deeper.
struct WayAhead {
    double from = 0.0, to = 0.0;
};
WayAhead way_ahead(const paths::Path& path, const Results& results);
// Whether there is any: not of a hole of which a style shows no more than is drilled.
bool goes_on(const paths::Path& path, const Results& results);

planning::NearHoles near_ahead(const paths::Path& path, const Results& results);

// Those that no model knows.
std::vector<planning::NearHole> left_out_ahead(const paths::Path& path, const Results& results);

// "HC-02 1.5 m off at 287 m", "HC-02 1.5 m off at 287 m (past its planned end)".
std::string near_hole_words(const planning::NearHole& near, const base::MapFrame& map);
// "HC-02 1.5 m off at 287 m, HC-07 3.0 m off at 210 m", `most` of them, and the names of the rest: ", also HC-01,
// HC-05". Empty: none.
std::string near_hole_words(const std::vector<planning::NearHole>& holes, std::size_t most, const base::MapFrame& map);
// How near the nearest four of those that it comes too near to come, and who else does.
std::string too_near_words(const planning::NearHoles& near, const base::MapFrame& map);

// " (past its planned end)" where that place lies there, else nothing.
std::string past_end_words(const planning::NearHole& near);

// From which depth on the clearance counts between holes that start beside each other, and what is kept above. A sentence.
std::string beside_rule_words(const base::MapFrame& map);

}  // namespace selvage::sheets
