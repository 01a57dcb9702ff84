#include "sheets/wall_looks.h"

#include <cmath>

namespace selvage::sheets {

double drawn_sd(const veins::TracePoint& point) {
    return std::hypot(point.sd, (point.mid - (point.low80 + point.high80) / 2.0).norm());
}

std::vector<WallStretch> wall_stretches(std::size_t points, const std::function<WallLook(std::size_t)>& look_from,
                                        const std::function<double(const WallStretch&)>& length_mm, double least_mm) {
    std::vector<WallStretch> all;
    for (std::size_t i = 0; i + 1 < points; ++i) {
        const WallLook look = look_from(i);
        if (all.empty() || (!(all.back().look == look) && length_mm(all.back()) >= least_mm)) all.push_back({look, i, i + 1});
        all.back().last = i + 1;
    }
    if (all.size() > 1 && length_mm(all.back()) < least_mm) {
        all[all.size() - 2].last = all.back().last;
        all.pop_back();
    }
    return all;
}

}  // namespace selvage::sheets
