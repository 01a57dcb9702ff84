#include "intercepts/strands.h"

#include "base/plane.h"
#include "base/text.h"
#include "intercepts/checks.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>
#include <utility>

namespace selvage::intercepts {

namespace {

using tables::PickState;

// How much a state leaves unknown of an envelope.
int unknown_of(PickState state) {
    switch (state) {
        case PickState::open_void: return 3;
        case PickState::lost: return 2;
        case PickState::vein: return 1;
        default: return 0;
    }
}

Strand envelope(const Strand& a, const Strand& b) {
    const Strand& upper = b.from < a.from ? b : a;
    const Strand& lower = b.to > a.to ? b : a;
    Strand out = upper;
    out.to = lower.to;
    out.to_sd = lower.to_sd;
    out.from_sd = upper.from_sd;
    out.state = unknown_of(b.state) > unknown_of(a.state) ? b.state : a.state;
    out.certainty = std::max(a.certainty, b.certainty);
    if (out.zone.empty()) out.zone = (&upper == &a ? b : a).zone;
    return out;
}

std::vector<Strand> joined_by_zone(const std::vector<Strand>& strands) {
    std::vector<Strand> out;
    std::map<std::string, std::size_t> of_zone;
    for (const Strand& strand : strands) {
        const std::string zone = base::folded(strand.zone);
        const auto known = zone.empty() ? of_zone.end() : of_zone.find(zone);
        if (known != of_zone.end()) {
            out[known->second] = envelope(out[known->second], strand);
            continue;
        }
        if (!zone.empty()) of_zone[zone] = out.size();
        out.push_back(strand);
    }
    return out;
}

bool fault_between(const Strand& upper, const Strand& lower, const paths::Path& path, const std::vector<faults::Fault>& faults) {
    const auto side = [&](const Strand& strand) {
        return faults::restored(faults, paths::position_at(path, (strand.from + strand.to) / 2.0)).hanging;
    };
    return side(upper) != side(lower);
}

base::Finding met_twice(const std::vector<Strand>& left_out, const base::MapFrame& frame) {
    std::string depths;
    for (const Strand& strand : left_out)
        depths += (depths.empty() ? "" : ", ") + base::fixed(frame.length((strand.from + strand.to) / 2.0), 1);
    const bool two = left_out.size() == 2;
    return {&vein_met_twice, left_out.front().origin, left_out.front().hole,
            fmt::format("meets {} {} ({} {}): give them one zone, or name one of them as its own vein; {} left out",
                        left_out.front().vein, two ? std::string("twice") : fmt::format("{} times", left_out.size()), depths,
                        base::symbol_of(frame.unit), two ? "both are" : "all are")};
}

}  // namespace

std::vector<Strand> strands_of(const tables::Records& records) {
    std::vector<Strand> out;
    std::set<std::string> picked;
    for (const tables::Pick& pick : records.picks) {
        picked.insert(pick.hole);
        out.push_back({pick.origin, pick.hole, pick.vein, pick.from, pick.to, pick.state, pick.certainty, pick.zone, pick.from_sd,
                       pick.to_sd});
    }
    for (const tables::GeologyInterval& row : records.geology)
        if (!row.vein.empty() && picked.count(row.hole) == 0)
            out.push_back({row.origin,
                           row.hole,
                           row.vein,
                           row.from,
                           row.to,
                           PickState::vein,
                           row.certainty,
                           {},
                           std::nullopt,
                           std::nullopt});
    return out;
}

std::vector<Strand> joined(const std::vector<Strand>& strands) {
    std::vector<Strand> zones = joined_by_zone(strands);
    std::stable_sort(zones.begin(), zones.end(), [](const Strand& a, const Strand& b) { return a.from < b.from; });
    std::vector<Strand> out;
    for (const Strand& strand : zones) {
        if (!out.empty() && strand.from - out.back().to <= same_depth)
            out.back() = envelope(out.back(), strand);
        else
            out.push_back(strand);
    }
    return out;
}

base::Checked<std::vector<Strand>> told_apart(std::vector<Strand> strands, const paths::Path& path,
                                              const std::vector<faults::Fault>& faults, const base::MapFrame& frame) {
    std::vector<bool> clash(strands.size(), false);
    for (std::size_t i = 1; i < strands.size(); ++i)
        if (!fault_between(strands[i - 1], strands[i], path, faults)) clash[i - 1] = clash[i] = true;
    base::Checked<std::vector<Strand>> out;
    std::vector<Strand> left_out;
    for (std::size_t i = 0; i < strands.size(); ++i) (clash[i] ? left_out : out.value).push_back(std::move(strands[i]));
    if (!left_out.empty()) out.findings.push_back(met_twice(left_out, frame));
    return out;
}

}  // namespace selvage::intercepts
