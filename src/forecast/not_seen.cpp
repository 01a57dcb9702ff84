#include "forecast/not_seen.h"

#include "paths/locate.h"

#include <algorithm>
#include <cmath>
#include <set>
#include <utility>

namespace selvage::forecast {

double chance_ahead(const std::vector<const Pierce*>& pieces, double depth) {
    double chances = 0.0, passed = 0.0, present = 0.0;
    for (const Pierce* piece : pieces) {
        chances += piece->crossing.chance;
        passed += piece->crossing.cumulative_at(depth);
        present += piece->crossing.chance * piece->presence;
    }
    if (!(chances > 0.0)) return 0.0;
    const double there = std::min(1.0, chances) * present / chances, used_up = std::min(1.0, passed / chances);
    const double not_seen = 1.0 - there * used_up;
    return not_seen > 0.0 ? there * (1.0 - used_up) / not_seen : 0.0;
}

std::vector<NotSeen> not_seen_yet(const std::vector<Pierce>& pierces, const std::vector<paths::Path>& paths, double step) {
    const paths::PathIndex index(paths);
    std::vector<NotSeen> rows;
    std::set<std::pair<std::string, std::size_t>> done;
    for (const Pierce& first : pierces) {
        if (!done.insert({first.hole, first.vein_number}).second) continue;
        const paths::Path* path = index.find(first.hole);
        if (path == nullptr || path->status != tables::HoleStatus::active) continue;
        std::vector<const Pierce*> pieces;
        double last = 0.0;
        for (const Pierce& pierce : pierces) {
            if (pierce.hole != first.hole || pierce.vein_number != first.vein_number) continue;
            pieces.push_back(&pierce);
            last = std::max(last, pierce.stop_depth);
        }
        if (path->drilled_depth >= last) continue;
        const auto add = [&](double depth) {
            rows.push_back({first.hole, first.vein, first.vein_number, depth, chance_ahead(pieces, depth)});
        };
        add(path->drilled_depth);
        for (double i = std::floor(path->drilled_depth / step) + 1.0; i * step < last; i += 1.0) add(i * step);
        add(last);
    }
    return rows;
}

}  // namespace selvage::forecast
