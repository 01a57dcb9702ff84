#pragma once

#include "sheets/marks.h"

#include <cstddef>
#include <string>
#include <vector>

// How a hole's log is laid out: strips of the whole hole side by side at one scale of the ladder, then windows ten times as large
// at what was picked, over as many pages as it takes.
namespace selvage::sheets {

// A stretch of the hole that is drawn in one piece.
struct LogStretch {
    double from = 0.0, to = 0.0;  // m down the hole
    bool is_window = false;       // large, at a pick
    bool is_first = true;         // of its column on paper: the columns' heads stand over it
    std::size_t page = 0;
    Box box;  // of its columns on paper, under their heads; from at its top
    double metres_per_mm = 0.5;

    double y(double depth) const { return box.top - (depth - from) / metres_per_mm; }
};

struct LogLayout {
    double strip_scale = 500.0, window_scale = 50.0;  // denominators, before the page is enlarged
    std::vector<LogStretch> stretches;                // strips from above, then windows from above
    std::size_t pages = 1;
    std::size_t cuts = 0;  // of windows that do not stand in one piece
};

constexpr double log_strip_width = 46.0, log_window_width = 74.0, log_gap = 4.0, log_head = 13.0;  // mm

// What stands on a page is widened, up to half as wide again, where there is room. The strips show `from` to `to`; a window each
// stretch of `picked` (rising, not overlapping), cut where it is longer than the paper. area: of all columns with their heads.
// The strips' scale is the largest of the ladder, from 1:500 (1:480) on, at which the hole takes four strips or fewer; a short
// hole's may be larger, to 1:200 (1:240).
struct DepthRange {
    double from = 0.0, to = 0.0;
};
LogLayout log_layout(double from, double to, const std::vector<DepthRange>& picked, const Box& area, const Scales& scales);

// The windows round picks, each `beside` longer at both ends, those that touch joined; held within the hole.
std::vector<DepthRange> windows_round(std::vector<DepthRange> picks, double beside, double from, double to);

// Places along a line moved apart as little as need be so that they keep `gap`, in their order, within low and high where they
// fit. Those beyond the room are left out: the last ones.
std::vector<double> spread(std::vector<double> wanted, double gap, double low, double high);

}  // namespace selvage::sheets
