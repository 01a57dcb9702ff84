#pragma once

#include "drawing/labels.h"
#include "sheets/compose.h"
#include "sheets/marks.h"
#include "sheets/paper_frame.h"

#include <string>
#include <vector>

// What stands near a place of a plan and is another hole's: a name there could be taken for its.
namespace selvage::sheets {

// The signs of hits and forecasts of all other holes, mm.
std::vector<Point> signs_of_others(const Results& results, const std::string& hole, const PaperFrame& frame);
// Each hole's trace in chords, in the order of the paths; and those of all other holes.
std::vector<std::vector<drawing::Segment>> traces_in_chords(const Results& results, const PaperFrame& frame);
std::vector<drawing::Segment> traces_of_others(const std::vector<std::vector<drawing::Segment>>& all, const Results& results,
                                               const std::string& hole);
// Leaves of a label's the ones near it: thousands of traces further off would fill the memory.
void keep_near(const Point& at, std::vector<drawing::Segment>& traces, std::vector<Point>& signs);
// Whether a hole's foot lies so near to a point, mm.
bool ends_near(const Results& results, const std::string& hole, const Point& at, double within_mm, const PaperFrame& frame);

}  // namespace selvage::sheets
