#include "sheets/clearance.h"

#include "sheets/label_text.h"

#include <algorithm>

namespace selvage::sheets {

WayAhead way_ahead(const paths::Path& path, const Results& results) {
    const bool active = path.status == tables::HoleStatus::active;
    WayAhead way{active ? path.drilled_depth : path.start_depth, path.end_depth};
    for (const forecast::Pierce& pierce : results.pierces)
        if (pierce.hole == path.hole && is_within_reach(pierce)) way.to = std::max(way.to, pierce.stop_depth);
    return way;
}

planning::NearHoles near_ahead(const paths::Path& path, const Results& results) {
    const WayAhead way = way_ahead(path, results);
    return planning::near_holes(path, way.from, way.to, results.project.plan.clearance, results.paths);
}

std::string too_near_words(const planning::NearHoles& near, const base::MapFrame& map) {
    constexpr std::size_t most_named = 4;
    std::string words;
    for (std::size_t i = 0; i < std::min(near.under.size(), most_named); ++i)
        words += (i == 0 ? "" : ", ") + near.under[i].hole + " " + length_text(near.under[i].distance, map, 1) + " off at " +
                 length_text(near.under[i].depth, map, 0);
    return near.under.size() > most_named ? words + " and " + std::to_string(near.under.size() - most_named) + " more" : words;
}

}  // namespace selvage::sheets
