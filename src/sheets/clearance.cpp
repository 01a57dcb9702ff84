#include "sheets/clearance.h"

#include "base/text.h"
#include "sheets/holes_ahead.h"
#include "sheets/label_text.h"

#include <algorithm>
#include <cmath>

namespace selvage::sheets {

WayAhead way_ahead(const paths::Path& path, const Results& results) {
    const bool active = path.status == tables::HoleStatus::active;
    WayAhead way{active ? path.drilled_depth : path.start_depth, path.end_depth};
    for (const forecast::Pierce& pierce : results.pierces)
        if (pierce.hole == path.hole && is_within_reach(pierce)) way.to = std::max(way.to, pierce.stop_depth);
    return way;
}

bool goes_on(const paths::Path& path, const Results& results) {
    const WayAhead way = way_ahead(path, results);
    return way.to > way.from;
}

planning::NearHoles near_ahead(const paths::Path& path, const Results& results) {
    if (results.ahead != nullptr)
        if (const auto found = results.ahead->near.find(path.hole); found != results.ahead->near.end()) return found->second;
    if (!goes_on(path, results)) return {};
    const WayAhead way = way_ahead(path, results);
    return planning::near_holes(path, way.from, way.to, results.project.plan.clearance, results.paths);
}

std::vector<planning::NearHole> left_out_ahead(const paths::Path& path, const Results& results) {
    const WayAhead way = way_ahead(path, results);
    return planning::near_left_out(path, way.from, way.to, results.project.plan.clearance, results.records, results.paths);
}

std::string near_hole_words(const planning::NearHole& near, const base::MapFrame& map) {
    constexpr double tenths = 10.0;  // never said to be farther than it is
    const double distance = std::floor(map.length(near.distance) * tenths + 1e-6) / tenths;
    return near.hole + " " + base::fixed(distance, 1) + " " + base::symbol_of(map.unit) + " off at " +
           length_text(near.depth, map, 0) + past_end_words(near);
}

std::string past_end_words(const planning::NearHole& near) { return near.past_end ? " (past its planned end)" : ""; }

std::string near_hole_words(const std::vector<planning::NearHole>& holes, std::size_t most, const base::MapFrame& map) {
    std::string words;
    for (std::size_t i = 0; i < std::min(holes.size(), most); ++i) words += (i == 0 ? "" : ", ") + near_hole_words(holes[i], map);
    for (std::size_t i = most; i < holes.size(); ++i) words += (i == most ? ", also " : ", ") + holes[i].hole;
    return words;
}

std::string too_near_words(const planning::NearHoles& near, const base::MapFrame& map) {
    return near_hole_words(near.under, 4, map);
}

std::string beside_rule_words(const base::MapFrame& map) {
    return "Beside a hole that starts within " + length_text(planning::one_pad, map, 0) + ", that counts past the first " +
           length_text(planning::common_start, map, 0) +
           ", from where the two no longer part; above, neither may draw clearly nearer to the other than their starts lie.";
}

}  // namespace selvage::sheets
