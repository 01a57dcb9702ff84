#include "sheets/call_and_stop.h"

#include "paths/locate.h"
#include "sheets/label_text.h"

namespace selvage::sheets {

CallAndStop call_and_stop(const forecast::Pierce& pierce, const Results& results) {
    CallAndStop rule{is_within_reach(pierce), pierce.call_depth, pierce.stop_depth, {}, {}};
    const forecast::Pierce* next = nullptr;
    for (const forecast::Pierce& other : results.pierces)
        if (other.hole == pierce.hole && other.depth > pierce.depth && is_within_reach(other) &&
            (next == nullptr || other.depth < next->depth))
            next = &other;
    if (next != nullptr) rule.goes_on_to = next->vein;
    const paths::Path* path = paths::path_of(results.paths, pierce.hole);
    if (next == nullptr && path != nullptr && rule.stop > path->end_depth) rule.past_end = path->end_depth;
    return rule;
}

std::string call_and_stop_words(const forecast::Pierce& pierce, const Results& results) {
    const base::MapFrame& map = results.records.frame;
    const CallAndStop rule = call_and_stop(pierce, results);
    if (!rule.reached) return "";
    const std::string call = "call the geologist at " + length_text(rule.call, map, 0);
    if (!rule.goes_on_to.empty()) return call + ", then go on to " + rule.goes_on_to;
    return call + "; stop at " + length_text(rule.stop, map, 0) +
           (rule.past_end ? ", past its planned end at " + length_text(*rule.past_end, map, 0) : "");
}

}  // namespace selvage::sheets
