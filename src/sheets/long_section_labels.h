#pragma once

#include "drawing/labels.h"
#include "sheets/long_section_content.h"
#include "sheets/marks.h"
#include "sheets/paper_frame.h"

#include <string>
#include <vector>

// What is said at the points of a long section.
namespace selvage::sheets {

// A label whose first line begins with a name; what follows on that line is set lighter.
struct NamedLabel {
    drawing::Label label;
    std::string link;            // where a click on the name leads
    bool planned = false;        // in the colour of what is not yet drilled
    std::size_t place_line = 1;  // of its lines the one that says where the vein is: a warning may stand before it
};

// Of one hit, miss or forecast; its text in the side list is the caller's.
NamedLabel named_hit(const HitOnPlane& drawn, const Results& results, const GradeClasses& classes, const PaperFrame& frame,
                     const Tools& tools);
NamedLabel named_miss(const MissOnPlane& drawn, const std::string& vein, const base::MapFrame& map, const PaperFrame& frame,
                      const Tools& tools);
NamedLabel named_pierce(const PierceOnPlane& drawn, const Results& results, const PaperFrame& frame, const Tools& tools);
// A label's lines joined: its text in the side list.
std::string joined_lines(const NamedLabel& named);

// Hits, misses, forecasts and outcrops, in this order.
std::vector<NamedLabel> long_section_labels(const LongSectionContent& content, const Results& results,
                                            const GradeClasses& classes, const PaperFrame& frame, const Tools& tools);

// The words of a placed label and its leader.
Marks label_marks(const NamedLabel& named, const drawing::PlacedLabel& placed, const drawing::LabelRules& rules,
                  const Tools& tools);

// Labels with their places: what is drawn, what lines must be broken round, the side list, and how the placer did.
struct PlacedWords {
    Marks marks;
    std::vector<Box> boxes;
    std::vector<std::string> listed;
    drawing::LabelFigures counts;
    std::vector<drawing::Segment> leaders;
};
PlacedWords placed_words(const std::vector<NamedLabel>& named, const drawing::Obstacles& obstacles,
                         const drawing::LabelRules& rules, const Tools& tools);

// A forecast in the words of a label, a line each: "vein likely at 231 m;" ...
std::vector<std::string> forecast_lines(const forecast::Pierce& pierce, const Results& results);

// "K-07 planned", "K-08 active".
std::string word_of_plan(tables::HoleStatus status);

}  // namespace selvage::sheets
