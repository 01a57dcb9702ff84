#pragma once

#include "drawing/labels.h"
#include "sheets/long_section_content.h"
#include "sheets/long_section_faults.h"
#include "sheets/marks.h"
#include "sheets/paper_frame.h"

#include <set>
#include <string>
#include <vector>

// Names of holes and faults on a vein's small long section.
namespace selvage::sheets {

// Holes asked for, each with its sign; no more than there is room for.
std::vector<drawing::Label> named_holes(const LongSectionContent& content, const PaperFrame& frame,
                                        const std::set<std::string>& named, const Tools& tools);
// All that is planned or active, the misses, and the hits within `near_m` of a rank; hits only where there is room beside them.
// None where its words would seem another sign's.
std::vector<drawing::Label> named_round_ranks(const LongSectionContent& content, const PaperFrame& frame, double near_m,
                                              const Tools& tools);

// Of the faults at which the vein ends, at the middle of the longest end of each.
std::vector<drawing::Label> fault_names(const FaultsOnPlane& faults, const Tools& tools);

struct SetNames {
    Marks marks;
    std::set<std::string> named;  // those that found a place
};
// Clear of all signs and of the boxes that are taken.
SetNames set_names(const std::vector<drawing::Label>& names, const std::vector<Box>& taken, const LongSectionContent& content,
                   const PaperFrame& frame, const Tools& tools);

// ", 3 hits and 1 miss not named"; empty: all are.
std::string not_named_words(const LongSectionContent& content, const std::set<std::string>& named);

}  // namespace selvage::sheets
