#pragma once

#include "sheets/compose.h"

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

// What was drilled or picked and stands on no drawing, because an error of the tables leaves it out.
namespace selvage::sheets {

// A pick that makes no intercept.
struct LeftOutPick {
    std::string hole, vein;              // as the tables have them; the vein may not be known
    std::optional<double> from, to;      // m down the hole; nothing where the row itself was left out
    const base::Finding* why = nullptr;  // never nothing
};
// A hole that could not be placed.
struct LeftOutHole {
    std::string hole;
    bool drilled = false;                // rows of it stand in other tables
    std::size_t row = 0;                 // of the collar table, the first that is found wrong
    const base::Finding* why = nullptr;  // never nothing
};
struct LeftOut {
    std::vector<LeftOutHole> holes;
    std::vector<LeftOutPick> picks;  // none of a hole that is left out as a whole
};
// In the order in which they were found, picks of one vein by depth.
LeftOut left_out_by_errors(const Results& results, const RunFacts& run);

// "collars differ", "vein met twice".
std::string reason_words(const base::Finding& why);
// "drilled, place in doubt, left out: collars differ".
std::string left_out_words(const LeftOutHole& hole);
// "picked at 125.65 to 126.05 m, left out: vein met twice".
std::string left_out_words(const LeftOutPick& pick, const base::MapFrame& map);

// The holes of these findings, each once, in their order, `most` by name: "HC-08, HC-16", "HC-01, HC-02, HC-03 and 4 more".
// Empty: none is named.
std::string holes_of(const std::vector<const base::Finding*>& findings, std::size_t most = 3);

}  // namespace selvage::sheets
