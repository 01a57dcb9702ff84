#pragma once

#include "sheets/compose.h"

#include <optional>
#include <string>

// When the geologist is called and when a hole is stopped, as the sheets say it.
namespace selvage::sheets {

// Of one forecast, seen among all those of its hole.
struct CallAndStop {
    bool reached = true;             // else the hole ends before the vein, and there is nothing to call for
    double call = 0.0, stop = 0.0;   // m down the hole
    std::string goes_on_to;          // a further vein that the hole is to meet: it does not stop after this one
    std::optional<double> past_end;  // the hole's planned end, m, where the stop lies beyond it
};

CallAndStop call_and_stop(const forecast::Pierce& pierce, const Results& results);

// "call the geologist at 309 m; stop at 352 m, past its planned end at 340 m"; "call the geologist at 270 m, then go on to
// Sorrel"; nothing where the hole ends before the vein.
std::string call_and_stop_words(const forecast::Pierce& pierce, const Results& results);

}  // namespace selvage::sheets
