#include "forecast/not_seen.h"

#include "paths/locate.h"

#include <cmath>

namespace selvage::forecast {

double chance_ahead(const Pierce& pierce, double depth) {
    const double passed = pierce.crossing.cumulative_at(depth);
    const double not_seen = 1.0 - pierce.presence * passed;
    return not_seen > 0.0 ? pierce.presence * (1.0 - passed) / not_seen : 0.0;
}

std::vector<NotSeen> not_seen_yet(const std::vector<Pierce>& pierces, const std::vector<paths::Path>& paths, double step) {
    const paths::PathIndex index(paths);
    std::vector<NotSeen> rows;
    for (const Pierce& pierce : pierces) {
        const paths::Path* path = index.find(pierce.hole);
        if (path == nullptr || path->status != tables::HoleStatus::active || path->drilled_depth >= pierce.stop_depth) continue;
        const auto add = [&](double depth) {
            rows.push_back({pierce.hole, pierce.vein, pierce.vein_number, depth, chance_ahead(pierce, depth)});
        };
        add(path->drilled_depth);
        for (double i = std::floor(path->drilled_depth / step) + 1.0; i * step < pierce.stop_depth; i += 1.0) add(i * step);
        add(pierce.stop_depth);
    }
    return rows;
}

}  // namespace selvage::forecast
