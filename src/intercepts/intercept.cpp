#include "intercepts/intercept.h"

#include "base/text.h"
#include "intercepts/checks.h"
#include "intercepts/composite.h"
#include "intercepts/contacts.h"
#include "intercepts/strands.h"
#include "tables/by_hole.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>
#include <tuple>
#include <utility>

namespace selvage::intercepts {

namespace {

using tables::PickState;

// Shares of recovered core under which an intercept is flagged (common practice, no source, and the model's rule).
constexpr double good_recovery = 0.9, least_recovery = 0.5;

// The rows that intercepts are made of, looked up by hole.
struct Evidence {
    tables::RowsByHole<tables::Assay> assays;
    tables::RowsByHole<tables::Recovery> recovery;
    tables::RowsByHole<orientation::Orientation> orientations;
    std::size_t analyte_count = 0;
};

std::optional<base::Finding> why_left_out(const Strand& strand, const paths::Path* path, const std::set<std::string>& veins,
                                          const base::MapFrame& frame) {
    const std::string what = fmt::format("the pick of {} at {}-{} {}", strand.vein, base::fixed(frame.length(strand.from), 2),
                                         base::fixed(frame.length(strand.to), 2), base::symbol_of(frame.unit));
    if (veins.count(strand.vein) == 0)
        return base::Finding{&pick_of_unknown_vein, strand.origin, strand.hole,
                             what + " is left out: the project file names no such vein"};
    if (path == nullptr)
        return base::Finding{&pick_of_unplaced_hole, strand.origin, strand.hole,
                             what + " is left out: the hole could not be placed"};
    if ((strand.from + strand.to) / 2.0 < path->start_depth - same_depth)
        return base::Finding{&pick_above_kickoff, strand.origin, strand.hole,
                             fmt::format("{} is left out: it lies above the kick-off at {} {}", what,
                                         base::fixed(frame.length(path->start_depth), 2), base::symbol_of(frame.unit))};
    return std::nullopt;
}

void add_recovery(const std::vector<const tables::Recovery*>& runs, Intercept& intercept) {
    double length = 0.0, recovered = 0.0;
    for (const tables::Recovery* run : runs) {
        if (!run->recovery) continue;
        const double overlap = std::min(run->to, intercept.to) - std::max(run->from, intercept.from);
        if (overlap <= 0.0) continue;
        const double share = std::clamp(*run->recovery, 0.0, 1.0);
        length += overlap;
        recovered += overlap * share;
    }
    if (length > 0.0) intercept.recovery = recovered / length;
    intercept.lost_length = length - recovered;
    if (intercept.state == PickState::lost) intercept.lost_length = intercept.length();
    if (intercept.state == PickState::open_void) intercept.lost_length = 0.0;
}

void add_grades(const Composite& composite, Intercept& intercept) {
    const bool has_fill = intercept.state == PickState::vein || intercept.state == PickState::structure;
    intercept.sampled = composite.state;
    intercept.sampled_share = composite.sampled_share;
    intercept.grades = has_fill ? composite.grades : std::vector<std::optional<Grade>>(composite.grades.size());
    const std::vector<std::optional<Grade>>& grades = intercept.grades;
    set_flag(intercept, "over-limit",
             std::any_of(grades.begin(), grades.end(), [](const auto& g) { return g && g->over_limit; }));
    set_flag(intercept, "below-detection", !grades.empty() && grades.front() && grades.front()->below_detection);
    set_flag(intercept, "part-sampled", intercept.sampled == SampledState::part_assayed);
    set_flag(intercept, "unsampled-as-zero", has_fill && composite.unsampled_as_zero);
}

Intercept intercept_of(const Strand& strand, const paths::Path& path, const Evidence& evidence,
                       const InterceptSettings& settings) {
    Intercept out;
    out.origin = strand.origin;
    out.hole = strand.hole;
    out.vein = strand.vein;
    out.from = strand.from;
    out.to = strand.to;
    out.state = strand.state;
    out.certainty = strand.certainty;
    out.zone = strand.zone;
    out.from_sd = strand.from_sd;
    out.to_sd = strand.to_sd;
    out.point = paths::position_at(path, out.middle());
    out.hole_direction = paths::direction_at(path, out.middle());
    add_recovery(tables::rows_of(evidence.recovery, out.hole), out);
    add_grades(
        composite(tables::rows_of(evidence.assays, out.hole), out.from, out.to, evidence.analyte_count, settings.composites),
        out);
    set_flag(out, "likely", out.certainty == 2);
    set_flag(out, "possible", out.certainty >= 3);
    const bool has_core = out.state != PickState::open_void && out.recovery;
    set_flag(out, "lost-core", out.state == PickState::lost || (has_core && *out.recovery < good_recovery));
    set_flag(out, "low-recovery", has_core && *out.recovery < least_recovery);
    return out;
}

// One vein in one hole.
base::Checked<std::vector<Intercept>> met_in_hole(const std::vector<Strand>& strands, const paths::Path& path,
                                                  const Evidence& evidence, const InterceptSettings& settings,
                                                  const base::MapFrame& frame) {
    base::Checked<std::vector<Intercept>> out;
    base::Checked<std::vector<Strand>> apart =
        told_apart(joined(strands), path, settings.events.younger_than(strands.front().vein), frame);
    out.findings = std::move(apart.findings);
    for (const Strand& strand : apart.value) out.value.push_back(intercept_of(strand, path, evidence, settings));
    add_contacts(tables::rows_of(evidence.orientations, path.hole), settings.core_angles.contact_kinds, out.value);
    return out;
}

std::map<std::string, std::size_t> numbers_of(const std::vector<std::string>& names) {
    std::map<std::string, std::size_t> out;
    for (const std::string& name : names) out.emplace(name, out.size());
    return out;
}

}  // namespace

const char* word_of(SampledState state) {
    switch (state) {
        case SampledState::assayed: return "assayed";
        case SampledState::part_assayed: return "part assayed";
        case SampledState::pending: return "pending";
        default: return "not sampled";
    }
}

const char* word_of(ThicknessSource source) {
    switch (source) {
        case ThicknessSource::model: return "model";
        case ThicknessSource::core: return "core";
        case ThicknessSource::alpha: return "alpha";
        default: return "unknown";
    }
}

const char* word_of(PickState state) {
    switch (state) {
        case PickState::vein: return "vein";
        case PickState::structure: return "structure";
        case PickState::open_void: return "void";
        case PickState::lost: return "lost";
        case PickState::faulted: return "faulted";
        default: return "absent";
    }
}

base::Checked<Intercepts> make_intercepts(const tables::Records& records, const std::vector<paths::Path>& paths,
                                          const std::vector<orientation::Orientation>& orientations,
                                          const InterceptSettings& settings) {
    base::Checked<Intercepts> out;
    const Evidence evidence = {tables::by_hole(records.assays), tables::by_hole(records.recovery), tables::by_hole(orientations),
                               records.analytes.size()};
    const std::map<std::string, std::size_t> vein_numbers = numbers_of(settings.veins);
    const std::set<std::string> veins(settings.veins.begin(), settings.veins.end());
    std::map<std::string, const paths::Path*> path_of;
    for (const paths::Path& path : paths) path_of[path.hole] = &path;

    // (hole, vein) in the order of the collar table and the project's veins.
    std::map<std::pair<std::size_t, std::size_t>, std::vector<Strand>> groups;
    for (const Strand& strand : strands_of(records)) {
        if (settings.events.is_fault(strand.vein)) continue;
        const auto found = path_of.find(strand.hole);
        const paths::Path* path = found == path_of.end() ? nullptr : found->second;
        if (auto finding = why_left_out(strand, path, veins, records.frame)) {
            out.findings.push_back(std::move(*finding));
        } else if (strand.state == PickState::faulted || strand.state == PickState::absent) {
            out.value.not_there.push_back({strand.origin, strand.hole, strand.vein, strand.from, strand.to, strand.state});
        } else {
            groups[{path->number, vein_numbers.at(strand.vein)}].push_back(strand);
        }
    }
    for (const auto& [key, strands] : groups) {
        base::Checked<std::vector<Intercept>> met =
            met_in_hole(strands, *path_of.at(strands.front().hole), evidence, settings, records.frame);
        base::append(out.findings, std::move(met.findings));
        std::move(met.value.begin(), met.value.end(), std::back_inserter(out.value.met));
    }
    const auto rank = [&](const auto& item) {
        return std::make_tuple(path_of.at(item.hole)->number, item.from, vein_numbers.at(item.vein));
    };
    const auto before = [&](const auto& a, const auto& b) { return rank(a) < rank(b); };
    std::stable_sort(out.value.met.begin(), out.value.met.end(), before);
    std::stable_sort(out.value.not_there.begin(), out.value.not_there.end(), before);
    return out;
}

}  // namespace selvage::intercepts
