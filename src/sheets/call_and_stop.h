#pragma once

#include "faults/faults_ahead.h"
#include "sheets/compose.h"

#include <optional>
#include <string>
#include <vector>

// When the geologist is called and when a hole is stopped, as the sheets say it.
namespace selvage::sheets {

// Of one forecast, seen among all those of its hole. A vein that is not met down to its stop is not where the model has it, and
// what lies behind it is as doubtful: the hole stops there and asks, even where a further vein is due (common practice, no
// source).
struct CallAndStop {
    bool reached = true;                     // else the hole ends before the vein, and there is nothing to call for
    double call = 0.0, stop = 0.0;           // m down the hole
    std::string goes_on_to;                  // a further vein that the hole is to meet: it goes on where it has met this one
    std::optional<double> past_end;          // the hole's planned end, m, where the stop lies beyond it
    std::vector<faults::FaultAhead> faults;  // on the way from where the hole is: those that may come before the stop
    double ask() const { return past_end.value_or(stop); }  // m: not met down to here, it stops and asks
};

CallAndStop call_and_stop(const forecast::Pierce& pierce, const Results& results);

// The faults that a hole still is to cross, or may, down to its end or the last stop of its veins: of each the stretch within
// that way, as the hole's card has it.
std::vector<faults::FaultAhead> faults_on_way(const paths::Path& path, const Results& results);
// Of these the ones that 8 holes of 10 begin to cross above a depth, m; each fault once where it is crossed for certain.
std::vector<faults::FaultAhead> faults_down_to(const std::string& hole, double depth, const Results& results);

// "call the geologist at 309 m; stop at 330 m"; "call the geologist at 309 m; planned end 340 m, ask for up to 352 m"; "call the
// geologist at 270 m; ask at 339 m if not met, else go on to Sorrel"; nothing where the hole ends before the vein.
std::string call_words(const CallAndStop& rule, const base::MapFrame& map);
// The same, and before it the faults on the way: "on the way Cross Fault at 210 m, 205 to 215 in 8 holes of 10".
std::string call_and_stop_words(const CallAndStop& rule, const base::MapFrame& map);
std::string call_and_stop_words(const forecast::Pierce& pierce, const Results& results);
// "ask at 339 m if not met, else go on to Sorrel", of one with a further vein.
std::string ask_words(const CallAndStop& rule, const base::MapFrame& map);

// "Cross Fault at 210 m, 205 to 215 in 8 holes of 10"; "perhaps Cross Fault, 227 to 272 m (chance 0.31)" of one that the expected
// line does not come to.
std::string fault_ahead_words(const faults::FaultAhead& fault, const base::MapFrame& map);
// "Cross Fault at 210 m (205–215)", "perhaps Cross Fault, 227–272 m".
std::string fault_in_short(const faults::FaultAhead& fault, const base::MapFrame& map);
// "210 (205–215)", or "227–272" of such a one: metres without a unit.
std::string fault_ahead_figures(const faults::FaultAhead& fault, const base::MapFrame& map);

}  // namespace selvage::sheets
