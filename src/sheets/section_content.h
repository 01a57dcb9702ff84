#pragma once

#include "sheets/grade_classes.h"
#include "sheets/opening_signs.h"
#include "sheets/section_set.h"

#include <cstddef>
#include <vector>

// What one cross section shows: holes and how they run through its slab, hits, misses and forecasts that lie in it.
namespace selvage::sheets {

// A point of a hole as the section sees it, m.
struct TracePlace {
    double depth = 0.0, distance = 0.0, up = 0.0, offset = 0.0;  // offset: behind the section
};

// A stretch of a trace that lies wholly in the slab or wholly off it; its ends on the slab's faces are points of both.
struct TraceRun {
    bool in_slab = false;
    std::vector<TracePlace> places;
    double length() const { return places.back().depth - places.front().depth; }
};

struct SectionHole {
    std::size_t path = 0;  // index in Results::paths
    std::vector<TraceRun> runs;
    bool has_point_here = false;  // a hit, a miss or a forecast
    bool shown = false;           // else it is named in the side list
    double length_in_slab = 0.0;
};

struct SectionContent {
    std::vector<SectionHole> holes;  // those that enter the slab, in collar order
    std::vector<const intercepts::Intercept*> hits;
    struct Miss {
        std::size_t vein = 0;
        const veins::NoVein* none = nullptr;
    };
    std::vector<Miss> misses;
    std::vector<const forecast::Pierce*> pierces;
    std::vector<const tables::Outcrop*> outcrops;
    std::vector<OpeningInSpace> openings;  // voids that holes ran into
};

// A hole is shown where it has a point in the slab or ran into a void there, runs through it for a quarter of its length, or is
// held by this section alone; on the section along a hole, where that hole's card names it: too near, beside its start or the
// nearest. A planned hole is shown where its forecast lies in the slab.
SectionContent section_content(const Results& results, const SectionSet& set, const Section& section);

// Number of the path of a hole; Results::paths' size where it has none.
std::size_t path_number(const Results& results, const std::string& hole);
std::size_t vein_number(const Results& results, const std::string& vein);

}  // namespace selvage::sheets
