#include "checks/contents.h"

#include "base/text.h"
#include "checks/collar_rows.h"
#include "checks/record_checks.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <optional>
#include <utility>

namespace selvage::checks {

namespace {

using namespace tables;

constexpr double touching = 0.005;        // m: depths nearer than this are one, tables print 0.01 m
constexpr double remains = 0.5;           // share of a sample that has to remain when it is cut
constexpr double longest_run = 6.2;       // m: two barrels of 3 m (10 ft) and a little; common practice, no source
constexpr double contact_distance = 2.0;  // m beyond the pick
constexpr double far_above = 10.0;        // times the next value
constexpr std::size_t enough_values = 30;

// Highest grades of pure ore minerals, percent by mass of the metal, from the atomic weights (IUPAC 2021): galena PbS, sphalerite
// ZnS, chalcocite Cu2S, stibnite Sb2S3.
struct PureMineral {
    const char* element;
    double percent;
    const char* mineral;
};
constexpr std::array<PureMineral, 4> pure_minerals = {
    {{"Pb", 86.60, "galena"}, {"Zn", 67.10, "sphalerite"}, {"Cu", 79.85, "chalcocite"}, {"Sb", 71.68, "stibnite"}}};

template <typename Row>
std::vector<std::size_t> by_depth(const std::vector<Row>& rows, std::vector<std::size_t> of_hole) {
    std::stable_sort(of_hole.begin(), of_hole.end(), [&](std::size_t a, std::size_t b) { return rows[a].from < rows[b].from; });
    return of_hole;
}

template <typename Row>
std::string span(const Row& row, const Checking& checking) {
    return fmt::format("{} to {}", base::fixed(checking.frame.length(row.from), 2), checking.length(row.to));
}

// Overlaps of any two intervals that follow each other; `matters` says which.
template <typename Row, typename Matters>
void check_overlaps(const std::vector<Row>& rows, const std::vector<std::size_t>& sorted, const base::Check& check,
                    Matters matters, Checking& checking) {
    std::size_t deepest = 0;
    for (std::size_t n = 1; n < sorted.size(); ++n) {
        if (rows[sorted[n - 1]].to >= rows[sorted[deepest]].to) deepest = n - 1;
        const Row& upper = rows[sorted[deepest]];
        const Row& lower = rows[sorted[n]];
        if (lower.from < upper.to - touching && matters(upper, lower))
            checking.report(
                check, lower.origin, lower.hole,
                fmt::format("{} overlaps {} of row {}", span(lower, checking), span(upper, checking), upper.origin.row));
    }
}

template <typename Row>
void check_gaps(const std::vector<Row>& rows, const std::vector<std::size_t>& sorted, Checking& checking) {
    std::size_t count = 0;
    double total = 0.0, end = 0.0;
    const Row* first = nullptr;
    double first_from = 0.0;
    for (std::size_t n = 0; n < sorted.size(); ++n) {
        const Row& row = rows[sorted[n]];
        if (n > 0 && row.from > end + touching) {
            if (count++ == 0) {
                first = &row;
                first_from = end;
            }
            total += row.from - end;
        }
        end = std::max(end, row.to);
    }
    if (count > 0)
        checking.report(
            log_gap, first->origin, first->hole,
            fmt::format("{} {} between its rows, {} in all, the first from {} to {}", count, count == 1 ? "gap" : "gaps",
                        checking.length(total), base::fixed(checking.frame.length(first_from), 2), checking.length(first->from)));
}

void check_core_runs(const std::vector<Recovery>& runs, const std::vector<std::size_t>& sorted, Checking& checking) {
    for (const std::size_t i : sorted)
        if (runs[i].to - runs[i].from > longest_run)
            checking.report(
                core_run_long, runs[i].origin, runs[i].hole,
                fmt::format("{} is a run of {}", span(runs[i], checking), checking.length(runs[i].to - runs[i].from)));
}

// Depths between which each hole has each vein, by picks, else by geology.
using VeinSpans = std::map<std::pair<std::string, std::string>, std::vector<std::pair<double, double>>>;

VeinSpans vein_spans(const Records& records) {
    VeinSpans spans;
    for (const Pick& pick : records.picks) spans[{pick.hole, pick.vein}].emplace_back(pick.from, pick.to);
    for (const GeologyInterval& row : records.geology)
        if (!row.vein.empty()) spans[{row.hole, row.vein}].emplace_back(row.from, row.to);
    return spans;
}

void check_contacts(const Records& records, Checking& checking) {
    const VeinSpans spans = vein_spans(records);
    for (const Structure& structure : records.structures) {
        const auto found = spans.find({structure.hole, structure.vein});
        if (structure.vein.empty() || found == spans.end()) continue;
        double distance = INFINITY;
        for (const auto& [from, to] : found->second)
            distance = std::min(distance, std::max({from - structure.depth, structure.depth - to, 0.0}));
        if (distance > contact_distance)
            checking.report(contact_away_from_pick, structure.origin, structure.hole,
                            fmt::format("{} of {} at {} lies {} from its nearest pick", structure.kind, structure.vein,
                                        checking.length(structure.depth), checking.length(distance)));
    }
}

void check_sample_numbers(const std::vector<Assay>& assays, Checking& checking) {
    std::map<std::string, const Assay*> first;
    for (const Assay& assay : assays) {
        if (assay.sample.empty()) continue;
        const auto [found, is_new] = first.emplace(base::folded(assay.sample), &assay);
        if (!is_new)
            checking.report(sample_number_twice, assay.origin, assay.hole,
                            fmt::format("sample {} is also that of row {}", assay.sample, found->second->origin.row));
    }
}

double percent_in_one(const std::string& unit) {
    return unit == "%" ? 1.0 : unit == "g/t" || unit == "ppm" ? 1e-4 : unit == "ppb" ? 1e-7 : 0.0;
}

void check_purity(const Analyte& analyte, std::size_t index, const std::vector<Assay>& assays, Checking& checking) {
    const auto pure = std::find_if(pure_minerals.begin(), pure_minerals.end(),
                                   [&](const PureMineral& one) { return analyte.element == one.element; });
    if (pure == pure_minerals.end()) return;
    for (const Assay& assay : assays) {
        const std::optional<double>& value = assay.values[index].value;
        if (value && *value * percent_in_one(analyte.unit) > pure->percent)
            checking.report(
                richer_than_mineral, assay.origin, assay.hole,
                fmt::format("{} {} is more than pure {} holds", base::significant(*value, 6), analyte.label(), pure->mineral));
    }
}

void check_highest(const Analyte& analyte, std::size_t index, const std::vector<Assay>& assays, Checking& checking) {
    const Assay* highest = nullptr;
    double most = 0.0, next = 0.0;
    std::size_t count = 0;
    for (const Assay& assay : assays) {
        const AssayValue& value = assay.values[index];
        if (assay.type != SampleType::primary || !value.value || value.below_detection) continue;
        ++count;
        if (*value.value > most) {
            next = most;
            most = *value.value;
            highest = &assay;
        } else {
            next = std::max(next, *value.value);
        }
    }
    if (count >= enough_values && most > far_above * next)
        checking.report(assay_far_above_others, highest->origin, highest->hole,
                        fmt::format("{} {}; the next highest is {}", base::significant(most, 6), analyte.label(),
                                    base::significant(next, 6)));
}

template <typename Row>
void leave_out_far(std::vector<Row>& rows, const Neighbourhood& around, Checking& checking) {
    std::vector<char> marked(rows.size(), 0);
    for (std::size_t i = 0; i < rows.size(); ++i) {
        if (around.holds(rows[i].position)) continue;
        marked[i] = 1;
        checking.report(place_far_away, rows[i].origin, "",
                        far_away(rows[i].position, around, checking.frame) + ": the row is left out");
    }
    remove_marked(rows, marked);
}

void leave_out_doubled(std::vector<Pad>& pads, Checking& checking) {
    std::map<std::string, std::size_t> first;
    std::vector<char> marked(pads.size(), 0);
    for (std::size_t i = 0; i < pads.size(); ++i) {
        const auto [found, is_new] = first.emplace(base::folded(pads[i].pad), i);
        if (is_new) continue;
        marked[i] = 1;
        checking.report(
            pad_twice, pads[i].origin, "",
            fmt::format("pad {} is also that of row {}: this row is left out", pads[i].pad, pads[found->second].origin.row));
    }
    remove_marked(pads, marked);
}

}  // namespace

void settle_assays(std::vector<Assay>& assays, const Holes& holes, Checking& checking) {
    std::vector<char> marked(assays.size(), 0);
    for (std::vector<std::size_t> of_hole : rows_by_hole(assays, holes)) {
        of_hole.erase(std::remove_if(of_hole.begin(), of_hole.end(),
                                     [&](std::size_t i) {
                                         return assays[i].type != SampleType::primary || !assays[i].from || !assays[i].to;
                                     }),
                      of_hole.end());
        std::stable_sort(of_hole.begin(), of_hole.end(),
                         [&](std::size_t a, std::size_t b) { return *assays[a].from < *assays[b].from; });
        const Assay* upper = nullptr;
        for (const std::size_t i : of_hole) {
            Assay& lower = assays[i];
            if (upper == nullptr || *lower.from >= *upper->to - touching) {
                upper = &lower;
                continue;
            }
            const double left = *lower.to - *upper->to;
            const bool cut = left >= remains * (*lower.to - *lower.from);
            checking.report(assays_overlap, lower.origin, lower.hole,
                            fmt::format("the sample from {} to {} overlaps that of row {}, which ends at {}: it is {}",
                                        base::fixed(checking.frame.length(*lower.from), 2), checking.length(*lower.to),
                                        upper->origin.row, checking.length(*upper->to), cut ? "cut there" : "left out"));
            if (cut) {
                lower.from = upper->to;
                upper = &lower;
            } else {
                marked[i] = 1;
            }
        }
    }
    remove_marked(assays, marked);
}

void check_assays(const Records& records, Checking& checking) {
    check_sample_numbers(records.assays, checking);
    for (std::size_t i = 0; i < records.analytes.size(); ++i) {
        check_purity(records.analytes[i], i, records.assays, checking);
        check_highest(records.analytes[i], i, records.assays, checking);
    }
}

void check_logs(const Records& records, const Holes& holes, Checking& checking) {
    const auto always = [](const auto&, const auto&) { return true; };
    const auto of_geology = rows_by_hole(records.geology, holes);
    const auto of_recovery = rows_by_hole(records.recovery, holes);
    const auto of_picks = rows_by_hole(records.picks, holes);
    for (std::size_t hole = 0; hole < holes.count(); ++hole) {
        const std::vector<std::size_t> geology = by_depth(records.geology, of_geology[hole]);
        check_overlaps(records.geology, geology, log_overlaps, always, checking);
        check_gaps(records.geology, geology, checking);
        const std::vector<std::size_t> runs = by_depth(records.recovery, of_recovery[hole]);
        check_overlaps(records.recovery, runs, log_overlaps, always, checking);
        check_gaps(records.recovery, runs, checking);
        check_core_runs(records.recovery, runs, checking);
        check_overlaps(
            records.picks, by_depth(records.picks, of_picks[hole]), picks_overlap,
            [](const Pick& a, const Pick& b) {
                return a.vein != b.vein && a.state != PickState::absent && b.state != PickState::absent;
            },
            checking);
    }
    check_contacts(records, checking);
}

void settle_structures(std::vector<Structure>& structures, Checking& checking) {
    std::vector<char> marked(structures.size(), 0);
    for (std::size_t i = 0; i < structures.size(); ++i) {
        if (structures[i].alpha || structures[i].attitude) continue;
        marked[i] = 1;
        checking.report(structure_without_angles, structures[i].origin, structures[i].hole,
                        "neither alpha nor dip and dip direction: the row is left out");
    }
    remove_marked(structures, marked);
}

void settle_places(Records& records, Checking& checking) {
    const Neighbourhood around = neighbourhood_of(records.collars);
    leave_out_far(records.outcrops, around, checking);
    leave_out_far(records.pads, around, checking);
    leave_out_doubled(records.pads, checking);
}

}  // namespace selvage::checks
