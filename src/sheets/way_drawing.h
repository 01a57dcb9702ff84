#pragma once

#include "sheets/section_drawing.h"

#include <string>
#include <utility>
#include <vector>

// What planned and active holes meet on their way besides veins, as a section tells it: holes that come too near, faults, and how
// far off its target a hole will come.
namespace selvage::sheets {

// Beside the traces ahead: a bracket over the stretch of each fault, a danger sign where another hole is too near, the target of
// a hole that may miss it, with its tolerance.
void draw_way(SectionDrawing& drawing);

// The same of one hole in words, each with what it is: {"Too near", "HC-02 1.5 m off at 287 m, 5 m wanted"} first, then
// {"Target",
// ...}, {"Fault", ...}.
std::vector<std::pair<std::string, std::string>> way_words(const std::string& hole, const Results& results);

}  // namespace selvage::sheets
