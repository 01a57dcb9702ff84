#pragma once

#include "sheets/legend_signs.h"
#include "sheets/long_section_content.h"
#include "sheets/long_section_frame.h"
#include "sheets/marks.h"
#include "sheets/section_set.h"

#include <set>
#include <vector>

// The parts of a long section beside its isolines and words.
namespace selvage::sheets {

// The two sides of a fault stand so far apart on paper, or are one line: line and line 0.7 mm clear (sheets.md, lines).
constexpr double fault_sides_apart_mm = 1.2;

// The stretches of a line that stand so far from all others.
std::vector<std::vector<Point>> apart_from(const std::vector<Point>& line, const std::vector<std::vector<Point>>& others,
                                           double apart_mm);

// Where the model ends, by reason; not along the ground where the ground is drawn, nor along the property. Along faults by how
// well their places are known, which goes to `fault_signs`.
Marks edge_marks(const LongSectionContent& content, const veins::Vein& vein, const LongSectionFrame& frame,
                 std::set<Sign>& fault_signs, const Tools& tools);
// Where the cross sections cut the mean plane, their names along the foot.
Marks section_line_marks(const LongSectionContent& content, const SectionSet& sections, const PaperFrame& frame,
                         const Tools& tools);
// The marks of hits with little core, and what they cover.
Marks little_core_marks(const std::vector<HitOnPlane>& hits, const PaperFrame& frame, const Tools& tools);
std::vector<Box> little_core_boxes(const std::vector<HitOnPlane>& hits, const PaperFrame& frame, const Tools& tools);
// Outcrops, misses and hits.
Marks symbol_marks(const LongSectionContent& content, const PaperFrame& frame, const Tools& tools);
// Likely pierce points and the ellipses in which 8 holes of 10 pierce.
Marks forecast_marks(const LongSectionContent& content, const PaperFrame& frame, const Tools& tools);
// That the sign of one of them is drawn large, round the sign of a hit.
bool goes_round_a_hit(const PierceOnPlane& pierce, const LongSectionContent& content, const PaperFrame& frame);
// What all these symbols cover.
std::vector<Box> symbol_boxes(const LongSectionContent& content, const PaperFrame& frame, const Tools& tools);

}  // namespace selvage::sheets
