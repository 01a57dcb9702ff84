#pragma once

#include "sheets/doubt.h"
#include "veins/vein.h"

#include <cstddef>
#include <functional>
#include <vector>

// How a vein's wall looks along a line, and where that changes.
namespace selvage::sheets {

// About the drawn surface, which is led through its hits, m: the model's sd and how far the drawn place stands from the middle of
// the model's band, which a hit of little known place may lead it out of.
double drawn_sd(const veins::TracePoint& point);

struct WallLook {
    bool thick = false;  // two walls, else one line stands for both
    WallStyle style = WallStyle::inferred;
    bool questionable = false;
    friend bool operator==(const WallLook& a, const WallLook& b) {
        return a.thick == b.thick && a.style == b.style && a.questionable == b.questionable;
    }
};

// A stretch of one look: indices of its first and last point, ends shared with the next stretch.
struct WallStretch {
    WallLook look;
    std::size_t first = 0, last = 0;
};

// The stretches of a line of so many points; a look that lasts for less than `least_mm` is not told apart.
//   look_from   of the piece from point i to the next
//   length_mm   of a stretch on paper
std::vector<WallStretch> wall_stretches(std::size_t points, const std::function<WallLook(std::size_t)>& look_from,
                                        const std::function<double(const WallStretch&)>& length_mm, double least_mm);

}  // namespace selvage::sheets
