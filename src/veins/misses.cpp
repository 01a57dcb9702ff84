#include "veins/misses.h"

#include "base/parallel.h"
#include "veins/crossing.h"
#include "veins/parent_wall.h"

#include <algorithm>
#include <cstddef>
#include <iterator>
#include <map>
#include <optional>
#include <set>

namespace selvage::veins {

namespace {

constexpr double least_logged = 0.9;     // of the 1-99 % range
constexpr double least_recovered = 0.8;  // of it
constexpr double even_chance = 0.5;
constexpr double ground_of_rows = 2.0;  // step-outs within which a hole has a row at all

using Stretch = faults::Blocks::Stretch;
using Spans = std::vector<std::pair<double, double>>;

// Length of [from, to] that the spans cover, overlaps once.
double covered(Spans spans, double from, double to) {
    std::sort(spans.begin(), spans.end());
    double length = 0.0, reached = from;
    for (const auto& [start, end] : spans) {
        const double low = std::max(start, reached), high = std::min(end, to);
        if (high > low) length += high - low;
        reached = std::max(reached, std::min(end, to));
    }
    return length;
}

// What the tables hold of each hole, gathered once.
struct HoleLogs {
    std::map<std::string, Spans> logged;
    std::map<std::string, std::vector<const tables::Recovery*>> recovery;
    std::map<std::string, std::vector<double>> named;  // depths of the picks and log rows that say it is, or may be, there
    std::map<std::string, std::vector<const intercepts::NoVeinPick*>> not_there;
};

HoleLogs logs_of(const std::string& vein, const intercepts::Intercepts& intercepts, const tables::Records& records) {
    HoleLogs logs;
    std::set<std::string> picked;
    for (const tables::Pick& pick : records.picks) {
        picked.insert(pick.hole);
        const bool no_vein = pick.state == tables::PickState::absent || pick.state == tables::PickState::faulted;
        if (pick.vein == vein && !no_vein) logs.named[pick.hole].push_back((pick.from + pick.to) / 2.0);
    }
    for (const tables::GeologyInterval& row : records.geology) {
        logs.logged[row.hole].emplace_back(row.from, row.to);
        if (row.vein == vein && picked.count(row.hole) == 0) logs.named[row.hole].push_back((row.from + row.to) / 2.0);
    }
    for (const tables::Recovery& row : records.recovery) {
        if (row.recovery) logs.recovery[row.hole].push_back(&row);
    }
    for (const intercepts::Intercept& met : intercepts.met) {
        if (met.vein == vein) logs.named[met.hole].push_back(met.middle());
    }
    for (const intercepts::NoVeinPick& pick : intercepts.not_there) {
        if (pick.vein == vein) logs.not_there[pick.hole].push_back(&pick);
    }
    return logs;
}

// Length-weighted over the part of the range that recovery speaks of; 1 where it says nothing.
double recovered_share(const HoleLogs& logs, const std::string& hole, double from, double to) {
    const auto rows = logs.recovery.find(hole);
    if (rows == logs.recovery.end()) return 1.0;
    double length = 0.0, core = 0.0;
    for (const tables::Recovery* row : rows->second) {
        const double overlap = std::min(to, row->to) - std::max(from, row->from);
        if (overlap <= 0.0) continue;
        length += overlap;
        core += overlap * std::min(1.0, *row->recovery);
    }
    return length > 0.0 ? core / length : 1.0;
}

double drilled_depth(const paths::Path& path) {
    return path.status == tables::HoleStatus::active ? path.drilled_depth : path.end_depth;
}

bool counts_for_misses(const paths::Path& path) {
    const bool drilled = tables::is_drilled(path.status) || path.status == tables::HoleStatus::active;
    return drilled && tables::is_drill_hole(path.type) && drilled_depth(path) > path.start_depth;
}

NoVeinReason reason_by_log(const HoleLogs& logs, const paths::Path& path, const Crossing& crossing) {
    const double from = crossing.depth_at(0.01), to = crossing.depth_at(0.99), length = to - from;
    const auto rows = logs.logged.find(path.hole);
    const double logged = rows == logs.logged.end() ? 0.0 : covered(rows->second, from, to);
    if (logged < least_logged * length) return NoVeinReason::not_judged;
    if (recovered_share(logs, path.hole, from, to) < least_recovered) return NoVeinReason::lost_core;
    return NoVeinReason::not_logged;
}

NoVeinReason reason_by_pick(const intercepts::NoVeinPick& pick, bool on_ground) {
    if (pick.state == tables::PickState::faulted) return NoVeinReason::fault_gap;
    return on_ground ? NoVeinReason::absent : NoVeinReason::not_judged;
}

double distance_on_vein(const Vein::Model& model, std::size_t block, const Eigen::Vector3d& point) {
    const BlockPart& part = model.parts[block];
    return nearest_distance(part.met, part.chart.chart_from_world(point).head<2>());
}

// A splay ends at the vein that it leaves: behind that nobody looks for it.
bool is_behind_parent(const Vein::Model& model, const Eigen::Vector3d& point) {
    return model.parent_wall && model.parent_wall->before(point).distance < 0.0;
}

void take_depths(NoVein& row, const Crossing& crossing) {
    row.depth = crossing.depth_at(0.5);
    row.depth_p10 = crossing.depth_at(0.1);
    row.depth_p90 = crossing.depth_at(0.9);
}

// The stretch of a path that holds a depth.
Stretch stretch_at(const std::vector<Stretch>& stretches, double depth) {
    for (const Stretch& stretch : stretches)
        if (depth <= stretch.to) return stretch;
    return stretches.back();
}

NoVein picked_row(const Vein::Model& model, const paths::Path& path, const intercepts::NoVeinPick& pick) {
    NoVein row;
    row.hole = path.hole;
    row.depth = row.depth_p10 = row.depth_p90 = (pick.from + pick.to) / 2.0;
    const Stretch stretch = stretch_at(stretches_of(model, path), row.depth);
    row.block = stretch.block;
    if (const auto crossing = crossing_curve(model, path, stretch, CurveEnds::three_sd)) take_depths(row, *crossing);
    row.point = paths::position_at(path, row.depth);
    row.reason = reason_by_pick(
        pick, distance_on_vein(model, row.block, row.point) <= model.step_out && !is_behind_parent(model, row.point));
    return row;
}

std::optional<NoVein> judged_row(const Vein::Model& model, const paths::Path& path, const Stretch& stretch,
                                 const HoleLogs& logs) {
    const auto rough = rough_crossing(model, path, stretch);
    const double reach = ground_of_rows * model.step_out;
    if (!rough || distance_on_vein(model, stretch.block, paths::position_at(path, *rough)) > reach + model.spacing)
        return std::nullopt;
    const auto crossing = crossing_curve(model, path, stretch, CurveEnds::three_sd);
    if (!crossing) return std::nullopt;
    NoVein row;
    row.hole = path.hole;
    row.block = stretch.block;
    take_depths(row, *crossing);
    row.point = paths::position_at(path, row.depth);
    const double distance = distance_on_vein(model, stretch.block, row.point);
    if (distance > reach || is_behind_parent(model, row.point)) return std::nullopt;
    if (drilled_depth(path) < crossing->depth_at(0.99)) {
        if (path.status == tables::HoleStatus::active) return std::nullopt;  // it has not stopped: it has a forecast
        row.reason = NoVeinReason::stopped_short;
    } else if (model.blocks.is_cut() && crossing->chance < even_chance) {
        row.reason = NoVeinReason::fault_gap;
    } else {
        row.reason = distance > model.step_out ? NoVeinReason::not_judged : reason_by_log(logs, path, *crossing);
    }
    return row;
}

// Where a path passes from one block to the next and the vein comes to neither side of the fault there.
std::optional<NoVein> gap_row(const Vein::Model& model, const paths::Path& path, const std::vector<Stretch>& stretches) {
    for (std::size_t i = 1; i < stretches.size() && stretches[i].from < drilled_depth(path); ++i) {
        const Eigen::Vector3d point = paths::position_at(path, stretches[i].from);
        const auto side = [&](const Stretch& stretch) {  // over or under the vein's surface
            const BlockPart& part = model.parts[stretch.block];
            const Eigen::Vector3d there = part.chart.chart_from_world(point);
            return there.z() > mean_in(model, part, there.head<2>()).height;
        };
        const double distance =
            std::min(distance_on_vein(model, stretches[i - 1].block, point), distance_on_vein(model, stretches[i].block, point));
        if (distance > model.step_out || side(stretches[i - 1]) == side(stretches[i])) continue;
        NoVein row;
        row.hole = path.hole;
        row.block = stretches[i].block;
        row.depth = row.depth_p10 = row.depth_p90 = stretches[i].from;
        row.point = point;
        row.reason = NoVeinReason::fault_gap;
        return row;
    }
    return std::nullopt;
}

// By block: where the hole has met the vein in one, the others are judged. Of the stretches that it may have crossed the likely
// ones count; where there are none, the first.
std::vector<NoVein> judged_rows(const Vein::Model& model, const paths::Path& path, const HoleLogs& logs,
                                const std::set<std::size_t>& taken) {
    const std::vector<Stretch> stretches = stretches_of(model, path);
    const auto named = logs.named.find(path.hole);
    std::set<std::size_t> met = taken;
    if (named != logs.named.end()) {
        if (!model.blocks.is_cut()) return {};
        for (const double depth : named->second) met.insert(stretch_at(stretches, depth).block);
    }
    std::vector<NoVein> rows;
    for (const Stretch& stretch : stretches) {
        if (met.count(stretch.block) != 0) continue;
        if (auto row = judged_row(model, path, stretch, logs)) rows.push_back(std::move(*row));
    }
    const auto is_gap = [](const NoVein& row) { return row.reason == NoVeinReason::fault_gap; };
    if (!met.empty() || std::any_of(rows.begin(), rows.end(), [&](const NoVein& row) { return !is_gap(row); }))
        rows.erase(std::remove_if(rows.begin(), rows.end(), is_gap), rows.end());
    if (rows.size() > 1 && is_gap(rows.front())) rows.resize(1);
    if (rows.empty() && met.empty())
        if (auto row = gap_row(model, path, stretches)) rows.push_back(std::move(*row));
    return rows;
}

// What was looked for and not found counts in its own block, the first of each; what nobody picked is judged in the others.
std::vector<NoVein> rows_of(const Vein::Model& model, const paths::Path& path, const HoleLogs& logs) {
    const auto picks = logs.not_there.find(path.hole);
    const bool named = logs.named.count(path.hole) != 0;
    if (picks == logs.not_there.end()) return judged_rows(model, path, logs, {});
    if (!model.blocks.is_cut())
        return named ? std::vector<NoVein>{} : std::vector<NoVein>{picked_row(model, path, *picks->second.front())};
    std::vector<NoVein> rows;
    std::set<std::size_t> taken;
    for (const intercepts::NoVeinPick* pick : picks->second) {
        NoVein row = picked_row(model, path, *pick);
        if (taken.insert(row.block).second) rows.push_back(std::move(row));
    }
    for (NoVein& row : judged_rows(model, path, logs, taken)) rows.push_back(std::move(row));
    std::stable_sort(rows.begin(), rows.end(), [](const NoVein& a, const NoVein& b) { return a.depth < b.depth; });
    return rows;
}

}  // namespace

std::vector<NoVein> holes_without(const std::string& vein, const Vein::Model& model, const intercepts::Intercepts& intercepts,
                                  const std::vector<paths::Path>& paths, const tables::Records& records) {
    const HoleLogs logs = logs_of(vein, intercepts, records);
    std::vector<std::vector<NoVein>> rows(paths.size());
    base::parallel_for(paths.size(), [&](std::size_t i) {
        const paths::Path& path = paths[i];
        if (!counts_for_misses(path)) return;
        rows[i] = rows_of(model, path, logs);
    });
    std::vector<NoVein> all;
    for (std::vector<NoVein>& of_hole : rows) std::move(of_hole.begin(), of_hole.end(), std::back_inserter(all));
    return all;
}

}  // namespace selvage::veins
