#pragma once

#include "sheets/call_and_stop.h"

#include <string>
#include <vector>

// A hole and one of the veins ahead of it. Where a fault parts the vein there is a forecast for each block that the hole may come
// through it in: these belong together, and mostly only one of them can come true.
namespace selvage::sheets {

struct VeinAhead {
    std::string hole, vein;
    std::vector<const forecast::Pierce*> pieces;  // the likeliest to be met first; never empty
    const forecast::Pierce& likeliest() const { return *pieces.front(); }
};

// Of all forecasts, in their order. Keeps pointers to them.
std::vector<VeinAhead> veins_ahead(const std::vector<forecast::Pierce>& pierces);
// Those that a sheet shows some pieces of, with all their pieces, in the order of those shown.
std::vector<VeinAhead> veins_ahead(const std::vector<const forecast::Pierce*>& shown,
                                   const std::vector<forecast::Pierce>& pierces);
// The one that a forecast, one of them all, is a piece of.
VeinAhead vein_ahead_of(const forecast::Pierce& piece, const std::vector<forecast::Pierce>& pierces);

// That one of the pieces alone can come true; else the hole may cross the vein twice.
bool are_alternatives(const VeinAhead& ahead);
// That the hole is long enough for one of the pieces to be worth a mark.
bool is_within_reach(const VeinAhead& ahead);
// Chance that the hole, run on, crosses a piece and the vein is there.
double there_chance(const forecast::Pierce& piece);
// Chance that the hole as planned meets a piece, or any of them: that it gets there, and the vein is there. Pieces of which one
// alone can come true add up; others are taken as independent of each other.
double chance_to_meet(const forecast::Pierce& piece);
double chance_to_meet(const VeinAhead& ahead);
// What words and tables give of a piece among others: the chance to meet it, or that it is there where the hole meets none of
// them.
double chance_among(const forecast::Pierce& piece, const VeinAhead& ahead);
// Chance that the vein is there where the hole, run on, crosses any of the pieces.
double chance_to_be_there(const VeinAhead& ahead);
// How much more of that chance there is where the hole goes on down to `depth`, m.
double gain_down_to(const VeinAhead& ahead, double depth);

// From the first piece within reach to call for to the last one to stop after; `reached`: any of them is.
CallAndStop call_and_stop(const VeinAhead& ahead, const Results& results);
std::string call_and_stop_words(const VeinAhead& ahead, const Results& results);

// The faults on the way to the last of its pieces within reach, else to the hole's end (faults_down_to): all of them, and those
// that the hole has not come to where it meets the vein before, if it should meet one.
std::vector<faults::FaultAhead> faults_on_the_way(const VeinAhead& ahead, const Results& results);
std::vector<faults::FaultAhead> further_faults(const VeinAhead& ahead, const Results& results);

// One forecast in words (pierce_words), or the choice: "in the foot wall of Cross Fault at 293 m (chance to meet it 0.74) or in
// its hanging wall at 313 m (0.07)".
std::string ahead_words(const VeinAhead& ahead, const base::MapFrame& frame);
// The same with its ranges, for words that have room, in lines: pierce_words, or "likely at 293 m (0.74), or 313 m (0.07)";
// "between 289 and 297, or 309 and 317, in 8 holes of 10"; "in the foot wall of Cross Fault, or its hanging wall"; "chance to
// meet it in one of them 0.81".
std::vector<std::string> ahead_lines(const VeinAhead& ahead, const base::MapFrame& frame);
// The lines as one sentence, without its end.
std::string ahead_sentence(const VeinAhead& ahead, const base::MapFrame& frame);
// Of one of the pieces, where it is shown, in lines: pierce_words, or "at 313 m, in the hanging wall of Cross Fault"; "between
// 309 and 317 in 8 holes of 10"; "chance to meet it here 0.07, at 293 m 0.74".
std::vector<std::string> piece_lines(const forecast::Pierce& piece, const VeinAhead& ahead, const base::MapFrame& frame);
// "outside the modelled ground" where the likeliest piece is, with a comma before it; else nothing.
std::string extent_words(const VeinAhead& ahead);

}  // namespace selvage::sheets
