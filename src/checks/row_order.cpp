#include "checks/row_order.h"

#include "base/text.h"
#include "checks/record_checks.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <optional>
#include <tuple>
#include <utility>

namespace selvage::checks {

namespace {

using namespace tables;

constexpr double depth_rounding = 0.05;  // m: depths are written to a decimetre or less
constexpr double most_beyond = 1.0;      // m: more than this below the end is a wrong depth, not a rounded one

// Where a row lies along its hole, and whether it may be without length.
struct Extent {
    double from = 0.0, to = 0.0;
    bool is_interval = true;
    bool may_be_a_point = false;
    bool cut_by_any_length = false;
};

Extent interval(double from, double to) { return {from, to, true, false, false}; }
Extent log_interval(double from, double to) { return {from, to, true, false, true}; }
Extent point(double depth) { return {depth, depth, false, true, false}; }

std::optional<Extent> extent_of(const Survey& s) { return point(s.depth); }
std::optional<Extent> extent_of(const Structure& s) { return point(s.depth); }
std::optional<Extent> extent_of(const GeologyInterval& g) { return log_interval(g.from, g.to); }
std::optional<Extent> extent_of(const Recovery& r) { return log_interval(r.from, r.to); }
std::optional<Extent> extent_of(const MineralInterval& m) { return log_interval(m.from, m.to); }
std::optional<Extent> extent_of(const SizeInterval& s) { return log_interval(s.from, s.to); }
std::optional<Extent> extent_of(const DrillingEvent& d) { return d.to ? log_interval(d.depth, *d.to) : point(d.depth); }
std::optional<Extent> extent_of(const Pick& p) {
    Extent extent = interval(p.from, p.to);
    extent.may_be_a_point = p.state == PickState::structure;
    return extent;
}
std::optional<Extent> extent_of(const Assay& a) {
    if (!a.from || !a.to) return std::nullopt;
    return interval(*a.from, *a.to);
}

template <typename Row>
void cut_at(Row& row, double end) {
    row.to = end;
}
void cut_at(Survey& /*a point*/, double) {}
void cut_at(Structure& /*a point*/, double) {}

// What makes two rows one: everything but where they stand. Surveys are not asked: a depth that a run has twice is averaged.
auto key_of(const Pick& p) { return std::tie(p.hole, p.from, p.to, p.vein, p.state, p.certainty, p.zone, p.from_sd, p.to_sd); }
auto key_of(const GeologyInterval& g) { return std::tie(g.hole, g.from, g.to, g.rock, g.vein, g.certainty); }
auto key_of(const Recovery& r) { return std::tie(r.hole, r.from, r.to, r.recovery, r.rqd); }
auto key_of(const MineralInterval& m) { return std::tie(m.hole, m.from, m.to, m.mineral, m.strength); }
auto key_of(const DrillingEvent& d) { return std::tie(d.hole, d.depth, d.to, d.kind, d.note); }
auto key_of(const SizeInterval& s) { return std::tie(s.hole, s.from, s.to, s.size, s.casing, s.steered); }
auto key_of(const Structure& s) {
    const auto degrees = [](const std::optional<base::Angle>& angle) { return angle ? angle->degrees() : -1.0; };
    const double dip = s.attitude ? s.attitude->dip.degrees() : -1.0;
    const double direction = s.attitude ? s.attitude->dip_direction.degrees() : -1.0;
    return std::make_tuple(s.hole, s.depth, s.kind, degrees(s.alpha), degrees(s.beta), degrees(s.gamma), dip, direction,
                           s.quality, s.vein, s.line);
}
auto key_of(const Assay& a) { return std::tie(a.hole, a.from, a.to, a.sample, a.type, a.status, a.density); }

bool same_values(const Assay& a, const Assay& b) {
    if (a.dispatch != b.dispatch && !(a.dispatch && b.dispatch && *a.dispatch == *b.dispatch)) return false;
    return std::equal(a.values.begin(), a.values.end(), b.values.begin(), b.values.end(),
                      [](const AssayValue& x, const AssayValue& y) {
                          return x.value == y.value && x.below_detection == y.below_detection && x.over_limit == y.over_limit;
                      });
}
template <typename Row>
bool same_values(const Row&, const Row&) {
    return true;
}

// Marks a row that repeats an earlier one of its hole. Rows of one extent stand together once they are sorted.
template <typename Row>
void mark_repeated(const std::vector<Row>& rows, std::vector<std::size_t> of_hole, std::vector<char>& marked,
                   Checking& checking) {
    const auto place = [&](std::size_t i) {
        const std::optional<Extent> extent = extent_of(rows[i]);
        return extent ? std::make_pair(extent->from, extent->to) : std::make_pair(-1.0, -1.0);
    };
    std::stable_sort(of_hole.begin(), of_hole.end(), [&](std::size_t a, std::size_t b) { return place(a) < place(b); });
    for (std::size_t n = 1; n < of_hole.size(); ++n) {
        const std::size_t row = of_hole[n];
        for (std::size_t k = n; k-- > 0 && place(of_hole[k]) == place(row);) {
            const std::size_t earlier = of_hole[k];
            if (marked[earlier] != 0 || key_of(rows[earlier]) != key_of(rows[row]) || !same_values(rows[earlier], rows[row]))
                continue;
            marked[row] = 1;
            checking.report(row_twice, rows[row].origin, rows[row].hole,
                            fmt::format("the row is that of row {}: used once", rows[earlier].origin.row));
            break;
        }
    }
}
void mark_repeated(const std::vector<Survey>&, const std::vector<std::size_t>&, std::vector<char>&, Checking&) {}

std::string span(const Extent& extent, const Checking& checking) {
    if (!extent.is_interval) return checking.length(extent.from);
    return fmt::format("{} to {}", base::fixed(checking.frame.length(extent.from), 2), checking.length(extent.to));
}

// False where the row has to be left out; cuts it where it runs over the end.
template <typename Row>
bool fits_hole(Row& row, double end, Checking& checking) {
    const std::optional<Extent> extent = extent_of(row);
    if (!extent) return true;
    const auto refuse = [&](const base::Check& check, const std::string& what) {
        checking.report(check, row.origin, row.hole, fmt::format("{}: {}: the row is left out", span(*extent, checking), what));
        return false;
    };
    if (extent->from > extent->to) return refuse(from_after_to, "from lies below to");
    if (extent->from == extent->to && !extent->may_be_a_point) return refuse(from_after_to, "the interval has no length");
    if (extent->to <= end + depth_rounding) return true;
    const std::string beyond =
        fmt::format("{} below the hole's end at {}", checking.length(extent->to - end), checking.length(end));
    const bool near_end = extent->to - end <= most_beyond;
    if (!extent->is_interval) {
        if (!near_end) return refuse(below_hole_end, beyond);
        checking.report(below_hole_end, row.origin, row.hole, fmt::format("{}: {}: kept", span(*extent, checking), beyond));
        return true;
    }
    if (extent->from >= end || !(near_end || extent->cut_by_any_length)) return refuse(below_hole_end, beyond);
    checking.report(below_hole_end, row.origin, row.hole, fmt::format("{}: {}: cut there", span(*extent, checking), beyond));
    cut_at(row, end);
    return true;
}

template <typename Row>
void leave_out(std::vector<Row>& rows, const Holes& holes, Checking& checking) {
    std::vector<char> marked(rows.size(), 0);
    const std::vector<std::vector<std::size_t>> of_holes = rows_by_hole(rows, holes);
    for (std::size_t hole = 0; hole < holes.count(); ++hole) {
        const double end = holes.end_of(hole);
        mark_repeated(rows, of_holes[hole], marked, checking);
        for (const std::size_t row : of_holes[hole])
            if (marked[row] == 0 && !fits_hole(rows[row], end, checking)) marked[row] = 1;
    }
    remove_marked(rows, marked);
}

// The deepest row of each hole, by its name, and which table it is in.
struct Deepest {
    double depth = 0.0;
    base::Origin origin;
};

template <typename Row>
void take_deepest(const std::vector<Row>& rows, std::map<std::string, Deepest>& deepest) {
    for (const Row& row : rows) {
        const std::optional<Extent> extent = extent_of(row);
        if (!extent || row.hole.empty()) continue;
        Deepest& of_hole = deepest[row.hole];
        if (of_hole.origin.source.empty() || extent->to > of_hole.depth) of_hole = {extent->to, row.origin};
    }
}

}  // namespace

void leave_out_impossible_rows(Records& records, const Holes& holes, Checking& checking) {
    leave_out(records.surveys, holes, checking);
    leave_out(records.picks, holes, checking);
    leave_out(records.geology, holes, checking);
    leave_out(records.assays, holes, checking);
    leave_out(records.structures, holes, checking);
    leave_out(records.recovery, holes, checking);
    leave_out(records.minerals, holes, checking);
    leave_out(records.drilling, holes, checking);
    leave_out(records.sizes, holes, checking);
}

void settle_progress(Records& records, Checking& checking) {
    std::map<std::string, Deepest> deepest;
    take_deepest(records.surveys, deepest);
    take_deepest(records.picks, deepest);
    take_deepest(records.geology, deepest);
    take_deepest(records.assays, deepest);
    take_deepest(records.structures, deepest);
    take_deepest(records.recovery, deepest);
    take_deepest(records.minerals, deepest);
    take_deepest(records.drilling, deepest);
    take_deepest(records.sizes, deepest);
    for (Collar& collar : records.collars) {
        const auto found = deepest.find(collar.hole);
        const bool has_rows = found != deepest.end();
        if (has_rows && (collar.status == HoleStatus::planned || collar.status == HoleStatus::cancelled))
            checking.report(planned_hole_has_rows, collar.origin, collar.hole,
                            fmt::format("it is {}, but {} has rows of it, as row {}",
                                        collar.status == HoleStatus::planned ? "planned" : "cancelled",
                                        found->second.origin.table, found->second.origin.row));
        if (collar.status != HoleStatus::active) continue;
        const double reached = has_rows ? found->second.depth : collar.kickoff.value_or(0.0);
        if (collar.drilled && reached > *collar.drilled + depth_rounding)
            checking.report(drilled_too_short, found->second.origin, collar.hole,
                            fmt::format("drilled is {}, but this row lies at {}: that is taken", checking.length(*collar.drilled),
                                        checking.length(reached)));
        collar.drilled = std::max(reached, collar.drilled.value_or(0.0));
    }
}

}  // namespace selvage::checks
