#pragma once

#include "sheets/long_section_content.h"
#include "sheets/long_section_labels.h"
#include "sheets/marks.h"
#include "sheets/paper_frame.h"

#include <cstddef>
#include <string>
#include <vector>

// The faults that part a vein, on its long section: where each block ends at them, what lies between the two sides, and how the
// blocks moved.
namespace selvage::sheets {

// What the sheet shows between the two sides of a fault: a gap without the vein, or both sides over each other.
struct FaultSpan {
    std::string fault;
    bool gap = true;            // else the vein is there twice
    double width = 0.0;         // m, mean, as drawn
    std::vector<Point> border;  // mm, closed
};

struct FaultsOnPlane {
    std::vector<std::string> names;                     // of the faults at which a block ends
    std::vector<std::vector<std::vector<Point>>> ends;  // of each: the blocks' ends, mm
    std::vector<std::vector<Point>> between;            // from one end of a block to its next one at the same fault
    std::vector<FaultSpan> spans;
};
FaultsOnPlane faults_on_plane(const LongSectionContent& content, const veins::Vein& vein, const PaperFrame& frame);

// Strokes over gaps and overlaps; the lines that join a block's ends. The ends themselves are edges of the model.
Marks span_marks(const FaultsOnPlane& faults, std::size_t vein, const Tools& tools);
Marks between_marks(const FaultsOnPlane& faults, const Tools& tools);

// Names: of each fault along its line, of each block inside it.
std::vector<NamedLabel> fault_labels(const LongSectionContent& content, const FaultsOnPlane& faults, const PaperFrame& frame,
                                     const Tools& tools);

// "Cross Fault+ moved 18 m down, 15 m W" (against the other side) and what the strokes mean; empty where no fault parts the vein.
LegendGroup block_group(const LongSectionContent& content, const FaultsOnPlane& faults, const Results& results,
                        const Tools& tools);

// "18 m down, 15 m W": a movement in words, in whole units.
std::string movement_words(const Eigen::Vector3d& slip, const base::MapFrame& map);

}  // namespace selvage::sheets
