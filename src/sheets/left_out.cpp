#include "sheets/left_out.h"

#include "base/text.h"
#include "sheets/flag_words.h"
#include "sheets/label_text.h"

#include <algorithm>
#include <set>

namespace selvage::sheets {

namespace {

constexpr int depth_decimals = 2;  // of picks, as they are read

std::vector<const base::Finding*> errors_of(const RunFacts& run) {
    std::vector<const base::Finding*> errors;
    if (run.findings == nullptr) return errors;
    for (const base::Finding& finding : *run.findings)
        if (finding.check->severity == base::Severity::error && !finding.hole.empty()) errors.push_back(&finding);
    return errors;
}

bool same_hole(const std::string& a, const std::string& b) { return base::folded(a) == base::folded(b); }

bool is_placed(const Results& results, const std::string& hole) {
    return std::any_of(results.paths.begin(), results.paths.end(),
                       [&](const paths::Path& path) { return same_hole(path.hole, hole); });
}

std::vector<LeftOutHole> holes_left_out(const Results& results, const std::vector<const base::Finding*>& errors) {
    std::vector<LeftOutHole> holes;
    for (const base::Finding* error : errors) {
        if (error->origin.table != "collars" || is_placed(results, error->hole)) continue;
        if (std::any_of(holes.begin(), holes.end(), [&](const LeftOutHole& one) { return same_hole(one.hole, error->hole); }))
            continue;
        const bool drilled = std::any_of(errors.begin(), errors.end(), [&](const base::Finding* other) {
            return other->origin.table != "collars" && same_hole(other->hole, error->hole);
        });
        holes.push_back({error->hole, drilled, error->origin.row, error});
    }
    return holes;
}

// Whether a pick is drawn as an intercept, or as a place where the vein is not.
bool is_used(const Results& results, const tables::Pick& pick) {
    const auto holds = [&](const auto& row) {
        return row.hole == pick.hole && row.vein == pick.vein && row.from <= pick.to && row.to >= pick.from;
    };
    return std::any_of(results.intercepts.met.begin(), results.intercepts.met.end(), holds) ||
           std::any_of(results.intercepts.not_there.begin(), results.intercepts.not_there.end(), holds);
}

// Of a finding on a row of picks: the picks of its hole and vein that are not used; of a row that is gone the row itself.
std::vector<LeftOutPick> picks_left_out(const Results& results, const base::Finding& error) {
    const std::vector<tables::Pick>& picks = results.records.picks;
    const auto row =
        std::find_if(picks.begin(), picks.end(), [&](const tables::Pick& pick) { return pick.origin.row == error.origin.row; });
    if (row == picks.end()) return {{error.hole, "", {}, {}, &error}};
    std::vector<LeftOutPick> all;
    for (const tables::Pick& pick : picks)
        if (pick.hole == row->hole && pick.vein == row->vein && !is_used(results, pick))
            all.push_back({pick.hole, pick.vein, pick.from, pick.to, &error});
    std::stable_sort(all.begin(), all.end(), [](const LeftOutPick& a, const LeftOutPick& b) { return *a.from < *b.from; });
    return all;
}

}  // namespace

LeftOut left_out_by_errors(const Results& results, const RunFacts& run) {
    const std::vector<const base::Finding*> errors = errors_of(run);
    LeftOut left_out{holes_left_out(results, errors), {}};
    std::set<std::pair<std::string, std::string>> told;
    for (const base::Finding* error : errors) {
        if (error->origin.table != "picks" || error->origin.row == 0) continue;
        if (std::any_of(left_out.holes.begin(), left_out.holes.end(),
                        [&](const LeftOutHole& hole) { return same_hole(hole.hole, error->hole); }))
            continue;
        const std::vector<LeftOutPick> picks = picks_left_out(results, *error);
        if (picks.empty() || (picks.front().from && !told.emplace(picks.front().hole, picks.front().vein).second)) continue;
        left_out.picks.insert(left_out.picks.end(), picks.begin(), picks.end());
    }
    return left_out;
}

std::string reason_words(const base::Finding& why) { return flag_words(why.check->id); }

std::string left_out_words(const LeftOutHole& hole) {
    return std::string(hole.drilled ? "drilled, " : "") + "place in doubt, left out: " + reason_words(*hole.why);
}

std::string left_out_words(const LeftOutPick& pick, const base::MapFrame& map) {
    const std::string at =
        pick.from ? " at " + length_figure(*pick.from, map, depth_decimals) + " to " + length_text(*pick.to, map, depth_decimals)
                  : "";
    return "picked" + at + ", left out: " + reason_words(*pick.why);
}

std::string holes_of(const std::vector<const base::Finding*>& findings, std::size_t most) {
    std::vector<std::string> names;
    for (const base::Finding* finding : findings)
        if (!finding->hole.empty() &&
            std::none_of(names.begin(), names.end(), [&](const std::string& name) { return same_hole(name, finding->hole); }))
            names.push_back(finding->hole);
    std::string words;
    for (std::size_t i = 0; i < std::min(names.size(), most); ++i) words += (i == 0 ? "" : ", ") + names[i];
    return names.size() > most ? words + " and " + std::to_string(names.size() - most) + " more" : words;
}

}  // namespace selvage::sheets
