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

using ByReason = std::map<veins::NoVeinReason, std::vector<const veins::NoVein*>>;

ByReason silent_holes(const Results& results, std::size_t vein, const std::function<bool(const veins::NoVein&)>& wanted) {
    ByReason holes;
    for (const veins::NoVein& none : results.veins[vein].no_vein())
        if (!none.is_miss() && wanted(none) && !has_forecast(results, none.hole, vein)) holes[none.reason].push_back(&none);
    return holes;
}

}  // namespace

std::vector<std::string> silent_hole_lines(const Results& results, const std::function<bool(const veins::NoVein&)>& wanted,
                                           bool depths) {
    std::vector<std::string> lines;
    for (std::size_t vein = 0; vein < results.veins.size(); ++vein)
        for (const auto& [reason, holes] : silent_holes(results, vein, wanted)) {
            std::string line = words_of(reason, results.veins[vein].name()) + ": ";
            for (const veins::NoVein* none : holes) {
                line += (none == holes.front() ? "" : ", ") + none->hole;
                if (depths)
                    line +=
                        (none == holes.front() ? " (due at " : " (") + length_text(none->depth, results.records.frame, 0) + ")";
            }
            lines.push_back(std::move(line));
        }
    return lines;
}

std::vector<std::string> silent_hole_names(const Results& results, std::size_t names_most) {
    std::vector<std::string> lines;
    for (std::size_t vein = 0; vein < results.veins.size(); ++vein)
        for (const auto& [reason, holes] : silent_holes(results, vein, [](const veins::NoVein&) { return true; })) {
            std::string names;
            for (const veins::NoVein* none : holes) names += (names.empty() ? "" : ", ") + none->hole;
            if (holes.size() > names_most) names = std::to_string(holes.size()) + " holes, see the intercept table";
            lines.push_back(words_of(reason, results.veins[vein].name()) + ": " + names);
        }
    return lines;
}

std::string active_words(const paths::Path& path, const base::MapFrame& map) {
    return "active, drilled to " + length_text(path.drilled_depth, map);
}

bool is_left_out(const Results& results, const std::string& hole, const std::string& vein) {
    const auto met = [&](const intercepts::Intercept& hit) { return hit.hole == hole && hit.vein == vein; };
    const auto picked = [&](const tables::Pick& pick) {
        return pick.hole == hole && pick.vein == vein && pick.state != tables::PickState::absent &&
               pick.state != tables::PickState::faulted;
    };
    const std::vector<intercepts::Intercept>& all = results.intercepts.met;
    return std::none_of(all.begin(), all.end(), met) &&
           std::any_of(results.records.picks.begin(), results.records.picks.end(), picked);
}

std::vector<std::string> left_out_picks(const Results& results, const std::function<bool(const std::string&)>& wanted) {
    std::vector<std::string> lines;
    for (const veins::Vein& vein : results.veins) {
        std::string holes;
        for (const paths::Path& path : results.paths)
            if (wanted(path.hole) && is_left_out(results, path.hole, vein.name()))
                holes += (holes.empty() ? "" : ", ") + path.hole;
        if (!holes.empty()) lines.push_back(vein.name() + " picked, left out (see the checks): " + holes);
    }
    return lines;
}

}  // namespace selvage::sheets
