#include "sheets/call_and_stop.h"

#include "paths/locate.h"
#include "sheets/clearance.h"
#include "sheets/label_text.h"

#include <algorithm>
#include <cmath>

namespace selvage::sheets {

namespace {

// To whole units of the project, no later than said where one has to be in time, and no sooner where one has to be past it.
constexpr double as_whole = 1e-6;  // units
double whole_before(double depth, const base::MapFrame& map) {
    return std::floor(map.length(depth) + as_whole) * base::metres_per(map.unit);
}
double whole_after(double depth, const base::MapFrame& map) {
    return std::ceil(map.length(depth) - as_whole) * base::metres_per(map.unit);
}

}  // namespace

std::vector<faults::FaultAhead> faults_on_way(const paths::Path& path, const Results& results) {
    const WayAhead way = way_ahead(path, results);
    std::vector<faults::FaultAhead> faults = faults::faults_ahead(path, results.events, way.from, way.to);
    for (faults::FaultAhead& fault : faults) {
        fault.depth_p10 = std::max(fault.depth_p10, way.from);
        fault.depth_p90 = std::min(fault.depth_p90, way.to);
    }
    return faults;
}

CallAndStop call_and_stop(const forecast::Pierce& pierce, const Results& results) {
    const base::MapFrame& map = results.records.frame;
    CallAndStop rule{
        is_within_reach(pierce), whole_before(pierce.call_depth, map), whole_after(pierce.stop_depth, map), {}, {}, {}};
    const forecast::Pierce* next = nullptr;
    for (const forecast::Pierce& other : results.pierces)
        if (other.hole == pierce.hole && other.depth > pierce.depth && is_within_reach(other) &&
            (next == nullptr || other.depth < next->depth))
            next = &other;
    if (next != nullptr) rule.goes_on_to = next->vein;
    const paths::Path* path = paths::path_of(results.paths, pierce.hole);
    if (path == nullptr) return rule;
    if (pierce.stop_depth > path->end_depth) rule.past_end = path->end_depth;
    for (faults::FaultAhead& fault : faults_on_way(*path, results))
        if (!rule.reached || fault.depth_p10 < rule.stop) rule.faults.push_back(std::move(fault));
    return rule;
}

std::vector<faults::FaultAhead> faults_down_to(const std::string& hole, double depth, const Results& results) {
    const paths::Path* path = paths::path_of(results.paths, hole);
    if (path == nullptr) return {};
    const std::vector<faults::FaultAhead> ahead = faults_on_way(*path, results);
    // Of two pieces of one fault the one that is crossed says enough.
    const auto is_told = [&](const faults::FaultAhead& one) {
        return !one.crosses && std::any_of(ahead.begin(), ahead.end(), [&](const faults::FaultAhead& other) {
            return other.crosses && other.name == one.name && other.depth_p10 <= one.depth_p90 &&
                   other.depth_p90 >= one.depth_p10;
        });
    };
    std::vector<faults::FaultAhead> kept;
    for (const faults::FaultAhead& one : ahead)
        if (one.depth_p10 < depth && !is_told(one)) kept.push_back(one);
    return kept;
}

std::string call_words(const CallAndStop& rule, const base::MapFrame& map) {
    if (!rule.reached) return "";
    const std::string call = "call the geologist at " + length_text(rule.call, map, 0);
    if (!rule.goes_on_to.empty()) return call + "; " + ask_words(rule, map);
    if (!rule.past_end) return call + "; stop at " + length_text(rule.stop, map, 0);
    return call + "; planned end " + length_text(*rule.past_end, map, 0) + ", ask for up to " + length_text(rule.stop, map, 0);
}

std::string call_and_stop_words(const CallAndStop& rule, const base::MapFrame& map) {
    std::string words;
    for (const faults::FaultAhead& fault : rule.faults)
        words += (words.empty() ? "on the way " : " and ") + fault_ahead_words(fault, map);
    const std::string call = call_words(rule, map);
    return words + (words.empty() || call.empty() ? "" : "; ") + call;
}

std::string ask_words(const CallAndStop& rule, const base::MapFrame& map) {
    return "ask at " + length_text(rule.ask(), map, 0) + " if not met, else go on to " + rule.goes_on_to;
}

std::string call_and_stop_words(const forecast::Pierce& pierce, const Results& results) {
    return call_and_stop_words(call_and_stop(pierce, results), results.records.frame);
}

std::string fault_in_short(const faults::FaultAhead& fault, const base::MapFrame& map) {
    const std::string from = length_figure(fault.depth_p10, map, 0), to = length_figure(fault.depth_p90, map, 0);
    if (!fault.crosses) return "perhaps " + fault.name + ", " + from + "–" + to + " " + base::symbol_of(map.unit);
    return fault.name + " at " + length_text(fault.depth, map, 0) + " (" + from + "–" + to + ")";
}

std::string fault_ahead_words(const faults::FaultAhead& fault, const base::MapFrame& map) {
    const std::string from = length_figure(fault.depth_p10, map, 0);
    if (!fault.crosses)
        return "perhaps " + fault.name + ", " + from + " to " + length_text(fault.depth_p90, map, 0) + " (chance " +
               chance_text(fault.chance) + ")";
    return fault.name + " at " + length_text(fault.depth, map, 0) + ", " + from + " to " +
           length_figure(fault.depth_p90, map, 0) + " in 8 holes of 10";
}

std::string fault_ahead_figures(const faults::FaultAhead& fault, const base::MapFrame& map) {
    const std::string range = length_figure(fault.depth_p10, map, 0) + "–" + length_figure(fault.depth_p90, map, 0);
    return fault.crosses ? length_figure(fault.depth, map, 0) + " (" + range + ")" : range;
}

}  // namespace selvage::sheets
