#pragma once

#include "sheets/section_drawing.h"

#include <string>
#include <vector>

// Stretches of traces on a cross section, as the files that draw and name them share them.
namespace selvage::sheets {

// The part of a run between two depths, m; empty where it holds none of them.
TraceRun part_between(const TraceRun& run, double from_depth, double to_depth);

// A run of one hole as far as it is drilled.
struct HoleRun {
    const paths::Path* path = nullptr;
    TraceRun run;
};

// Those of all shown holes, planned ones left out, in collar order and down the hole.
std::vector<HoleRun> drilled_runs(const SectionDrawing& drawing);

// Whether the hole as drilled ends with this run.
bool comes_to_its_end(const HoleRun& hole);

// A run in mm on paper, points that hardly bend it left out.
std::vector<Point> on_paper(const SectionDrawing& drawing, const TraceRun& run);

// "40 m in front", "17 m behind"; the offset is behind the section, m.
std::string offset_words(const SectionDrawing& drawing, double offset);

}  // namespace selvage::sheets
