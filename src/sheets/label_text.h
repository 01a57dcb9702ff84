#pragma once

#include "base/units.h"
#include "forecast/pierce.h"
#include "intercepts/intercept.h"
#include "tables/records.h"
#include "veins/vein.h"

#include <string>

// The words of labels: which length is given, unit and metal, and no more digits than were measured.
namespace selvage::sheets {

// "1.8 m": a length in metres, in the project's unit.
std::string length_text(double metres, const base::MapFrame& frame, int decimals = 1);
// "1.8 m", "0.03 m": a thickness, with a second decimal where one would show nothing; and its figure alone. Shortened from the
// two decimals of the table, a half upwards: 2.7452 is 2.75 there and 2.8 here.
std::string thickness_text(double metres, const base::MapFrame& frame);
std::string thickness_figure(double metres, const base::MapFrame& frame);
// Figure alone, in the project's unit.
std::string length_figure(double metres, const base::MapFrame& frame, int decimals = 1);
// The same with its sign: "+2.1", "-0.4", "0.0".
std::string signed_length(double metres, const base::MapFrame& frame, int decimals = 1);
// "40 m in front", "17 m behind", of an offset behind a section, m.
std::string behind_words(double offset, const base::MapFrame& frame);
// "22 to 36 m behind", "3 m in front to 12 m behind", of offsets from the least to the most; one figure where both read alike.
std::string behind_range_words(double from, double to, const base::MapFrame& frame);
// "412 g/t Ag", "> 1500 g/t Ag", "< 0.5 g/t Ag" (below detection).
std::string grade_text(const intercepts::Grade& grade, const tables::Analyte& analyte);
// Units in which a grade is a weight of metal by weight of rock: g/t, ppm, ppb.
bool is_by_weight(const std::string& unit);
// A grade's figure alone: in g/t, ppm and ppb whole from 10 and two significant digits below; else three significant digits.
std::string grade_figure(double value, const std::string& unit);
// What stands before the figure of a grade, and of all that is reckoned from it: "> ", "< " or nothing.
std::string limit_sign(const intercepts::Grade& grade);
// Of a hit without a grade of this analyte: "not sampled", or "Ag not assayed" where another analyte has one.
std::string not_assayed_words(const intercepts::Intercept& hit, const tables::Records& records, std::size_t analyte);

// "1.8 m TW @ 412 g/t Ag"; "2.4 m DH @ 412 g/t Ag" where the true thickness is not known; "1.8 m TW, assays pending";
// "1.8 m TW, Ag not assayed"; "core lost, 2.4 m DH"; "void, 2.1 m DH"; "structure, no fill".
std::string hit_label(const intercepts::Intercept& hit, const tables::Records& records, std::size_t analyte);
// What makes a hit less sure than others, in words: "possible pick only", "recovery 45 %", "60 % assayed", "hit at 24°",
// "doubtful, see the table". Empty: nothing.
std::string doubt_words(const intercepts::Intercept& hit);
// "36.8 to 37.2 m"
std::string depth_range_text(double from, double to, const base::MapFrame& frame);
// "no vein at 366 m" with the reason's plain words where it is no miss: "stopped short of it" ...
std::string no_vein_label(const veins::NoVein& none, const base::MapFrame& frame);
// That the hole is long enough for its crossing to be worth a mark: a chance of 1 in 50.
bool is_within_reach(const forecast::Pierce& pierce);
// Whether a fault parts any vein: then tables say in which block a thing lies.
bool has_blocks(const std::vector<veins::Vein>& veins);
// How tables name blocks, for a list of words and their meanings.
constexpr const char* block_signs = "Block\tof a vein that faults part: + in the fault's hanging wall, - in its foot wall";
// On which side of the faults a block lies, from its name: "Cross Fault+" is "hanging wall of Cross Fault".
std::string block_words(const std::string& block);
// "0.95"; "over 0.99" where two decimals would claim certainty, "under 0.01" likewise.
std::string chance_text(double chance);
// That a forecast's place lies where no vein is modelled.
bool is_beyond_extent(const forecast::Pierce& pierce);
// What makes the place of a forecast less sure than others, each after a comma: that it lies where no vein is modelled, that the
// hole may pass the vein by; else nothing.
std::string place_doubts(const forecast::Pierce& pierce);
// "at 221 m, in the foot wall of Cross Fault; between 217 and 226 in 8 holes of 10".
std::string place_words(const forecast::Pierce& pierce, const base::MapFrame& frame);
// "likely at 221 m; between 217 and 226 in 8 holes of 10; chance that it is there 0.95", that it lies outside the modelled
// ground, and whether the hole may end before it.
std::string pierce_words(const forecast::Pierce& pierce, const base::MapFrame& frame);

// "E 439 845  N 5 159 490" of a point relative to the project origin, whole units, blanks between thousands.
std::string coordinates_text(const Eigen::Vector3d& point, const base::MapFrame& frame);
// "439 845": whole, blanks between thousands (no-break thin spacing is left to the font's blank).
std::string spaced_thousands(double value);
// "NE" of the eight points, "031°" of an azimuth to the nearest degree.
std::string compass_point(base::Azimuth azimuth);
std::string bearing_text(base::Azimuth azimuth);

}  // namespace selvage::sheets
