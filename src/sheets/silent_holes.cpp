#include "sheets/silent_holes.h"

#include "sheets/label_text.h"

#include <algorithm>
#include <map>
#include <utility>

namespace selvage::sheets {

namespace {

// A hole that is still drilling or not begun says so by its forecast.
bool has_forecast(const Results& results, const std::string& hole, std::size_t vein) {
    return std::any_of(results.pierces.begin(), results.pierces.end(),
                       [&](const forecast::Pierce& pierce) { return pierce.hole == hole && pierce.vein_number == vein; });
}

std::string words_of(veins::NoVeinReason reason, const std::string& vein) {
    switch (reason) {
        case veins::NoVeinReason::stopped_short: return "stopped short of " + vein;
        case veins::NoVeinReason::lost_core: return "core lost at " + vein;
        case veins::NoVeinReason::fault_gap: return vein + " faulted out";
        default: return "not judged for " + vein;
    }
}

}  // namespace

std::vector<std::string> silent_hole_lines(const Results& results, bool with_depths,
                                           const std::function<bool(const Eigen::Vector3d&)>& wanted) {
    std::vector<std::string> lines;
    for (std::size_t vein = 0; vein < results.veins.size(); ++vein) {
        std::map<veins::NoVeinReason, std::string> holes;
        for (const veins::NoVein& none : results.veins[vein].no_vein()) {
            if (none.is_miss() || !wanted(none.point) || has_forecast(results, none.hole, vein)) continue;
            std::string& list = holes[none.reason];
            const std::string depth = length_text(none.depth, results.records.frame, 0);
            const std::string due = with_depths ? (list.empty() ? " (due at " : " (") + depth + ")" : std::string();
            list += (list.empty() ? "" : ", ") + none.hole + due;
        }
        for (const auto& [reason, list] : holes) lines.push_back(words_of(reason, results.veins[vein].name()) + ": " + list);
    }
    return lines;
}

}  // namespace selvage::sheets
