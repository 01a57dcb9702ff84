#include "sheets/log_records.h"

#include "base/text.h"
#include "paths/locate.h"
#include "sheets/grade_classes.h"
#include "sheets/label_text.h"
#include "sheets/news.h"
#include "sheets/strip_log.h"
#include "sheets/three_norths.h"
#include "tables/by_hole.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>
#include <utility>

namespace selvage::sheets {

namespace {

// Core was drilled, and a vein was picked in it or anything was logged: no vein is a result.
bool gets_log(const tables::Collar& collar, const paths::Path* path, bool picked, bool logged) {
    if (path == nullptr || collar.type != tables::HoleType::core || !(path->drilled_depth > path->start_depth)) return false;
    return picked || logged;
}

// Active ones first, else in collar order. Of very many the newest, where their dates tell, else the last.
std::vector<const tables::Collar*> collars_with_logs(const Results& results) {
    std::set<std::string> picked, logged;
    for (const intercepts::Intercept& hit : results.intercepts.met) picked.insert(hit.hole);
    for (const intercepts::NoVeinPick& pick : results.intercepts.not_there) picked.insert(pick.hole);
    for (const tables::GeologyInterval& row : results.records.geology) logged.insert(row.hole);
    const paths::PathIndex index(results.paths);
    std::vector<const tables::Collar*> collars;
    for (const tables::Collar& collar : results.records.collars)
        if (gets_log(collar, index.find(collar.hole), picked.count(collar.hole) != 0, logged.count(collar.hole) != 0))
            collars.push_back(&collar);
    const auto is_active = [](const tables::Collar* collar) { return collar->status == tables::HoleStatus::active; };
    std::vector<const tables::Collar*> newest(collars.rbegin(), collars.rend());
    std::stable_sort(newest.begin(), newest.end(), [&](const tables::Collar* a, const tables::Collar* b) {
        return is_active(a) != is_active(b) ? is_active(a) : latest_date(*a) > latest_date(*b);
    });
    newest.resize(std::min(newest.size(), most_logs));
    collars.erase(
        std::remove_if(collars.begin(), collars.end(),
                       [&](const auto* collar) { return std::find(newest.begin(), newest.end(), collar) == newest.end(); }),
        collars.end());
    std::stable_partition(collars.begin(), collars.end(), is_active);
    return collars;
}

std::vector<SaidDepth> said_of(const Results& results, const std::string& hole) {
    std::vector<SaidDepth> said;
    for (const veins::Vein& vein : results.veins)
        for (const veins::FitRow& row : vein.fit())
            if (row.hole == hole)
                said.push_back({vein.name(), row.predicted_depth, row.depth_p10, row.depth_p90, false, {}, false});
    for (const forecast::Pierce& pierce : results.pierces)
        if (pierce.hole == hole && is_within_reach(pierce))
            said.push_back({pierce.vein, pierce.depth, pierce.depth_p10, pierce.depth_p90, true, {}, false});
    // What an active hole has not come to is a forecast.
    const paths::Path* path = paths::path_of(results.paths, hole);
    const bool goes_on = path != nullptr && path->status == tables::HoleStatus::active;
    for (const veins::Vein& vein : results.veins)
        for (const veins::NoVein& none : vein.no_vein())
            if (none.hole == hole && none.reason != veins::NoVeinReason::not_judged &&
                !(goes_on && none.reason == veins::NoVeinReason::stopped_short))
                said.push_back({vein.name(), none.depth, none.depth_p10, none.depth_p90, false, none.reason, none.is_miss()});
    return said;
}

std::string surveys_words(const LoggedHole& hole, const Results& results) {
    std::size_t count = 0;
    for (const paths::Station& station : hole.path->stations) count += station.measured ? 1 : 0;
    if (count == 0) return "not surveyed";
    std::string methods;
    for (const tables::Survey& survey : results.records.surveys)
        if (survey.hole == hole.collar->hole && !survey.method.empty() && methods.find(survey.method) == std::string::npos)
            methods += (methods.empty() ? "" : ", ") + survey.method;
    return std::to_string(count) + " survey stations" + (methods.empty() ? "" : " (" + methods + ")") + " to " +
           length_text(hole.path->surveyed_depth, results.records.frame, 1);
}

// `date`: of the run; what is drilled now goes on past it.
std::string dates_words(const tables::Collar& collar, const std::string& date) {
    const bool goes_on = collar.date_finished.empty() && collar.status == tables::HoleStatus::active;
    if (!collar.date_started.empty() || !collar.date_finished.empty())
        return "drilled " + (collar.date_started.empty() ? "?" : collar.date_started) +
               (goes_on && date.empty() ? " on"
                : goes_on               ? " to " + date + ", going on"
                                        : " to " + (collar.date_finished.empty() ? "?" : collar.date_finished));
    return collar.date.empty() ? "dates not given" : "dated " + collar.date;
}

const char* state_words(tables::HoleStatus status) {
    switch (status) {
        case tables::HoleStatus::active: return "active";
        case tables::HoleStatus::suspended: return "suspended";
        case tables::HoleStatus::abandoned: return "abandoned";
        default: return "done";
    }
}

// That a vein was met outside the range in which 8 of 10 are, and where: of several picks the nearest to it.
std::string beside_words(const SaidDepth& said, const LoggedHole& hole, const base::MapFrame& map) {
    std::optional<double> met;
    for (const intercepts::Intercept* hit : hole.hits) {
        const double depth = (hit->from + hit->to) / 2.0;
        if (hit->vein == said.vein && (!met || std::abs(depth - said.depth) < std::abs(*met - said.depth))) met = depth;
    }
    if (!met || said.is_forecast || (*met >= said.p10 && *met <= said.p90)) return {};
    return "; met at " + length_figure(*met, map) + ", " + (*met < said.p10 ? "above" : "below") + " that range";
}

}  // namespace

std::vector<LoggedHole> logged_holes(const Results& results, const RunFacts& run) {
    const auto geology = tables::by_hole(results.records.geology);
    const auto assays = tables::by_hole(results.records.assays);
    const auto recovery = tables::by_hole(results.records.recovery);
    const auto structures = tables::by_hole(results.orientations);
    const auto hits = tables::by_hole(results.intercepts.met);
    const auto not_there = tables::by_hole(results.intercepts.not_there);
    const auto picks = tables::by_hole(results.records.picks);
    const auto drilling = tables::by_hole(results.records.drilling);
    const auto findings = run.findings == nullptr ? tables::RowsByHole<base::Finding>() : tables::by_hole(*run.findings);
    const LeftOut left_out = left_out_by_errors(results, run);
    std::vector<LoggedHole> all;
    for (const tables::Collar* collar : collars_with_logs(results)) {
        LoggedHole hole;
        hole.collar = collar;
        hole.path = paths::path_of(results.paths, collar->hole);
        hole.hits = tables::rows_of(hits, collar->hole);
        hole.not_there = tables::rows_of(not_there, collar->hole);
        hole.geology = tables::rows_of(geology, collar->hole);
        for (const tables::Assay* assay : tables::rows_of(assays, collar->hole))
            if (assay->type == tables::SampleType::primary && assay->from && assay->to) hole.assays.push_back(assay);
        hole.recovery = tables::rows_of(recovery, collar->hole);
        hole.structures = tables::rows_of(structures, collar->hole);
        for (const tables::Pick* pick : tables::rows_of(picks, collar->hole))
            if (!pick->comment.empty()) hole.commented.push_back(pick);
        for (const LeftOutPick& pick : left_out.picks)
            if (pick.hole == collar->hole && pick.from) hole.left_out.push_back(pick);
        hole.drilling = tables::rows_of(drilling, collar->hole);
        hole.findings = tables::rows_of(findings, collar->hole);
        hole.said = said_of(results, collar->hole);
        all.push_back(std::move(hole));
    }
    return all;
}

std::map<std::string, std::string> log_destinations(const Results& results) {
    std::map<std::string, std::string> destinations;
    for (const tables::Collar* collar : collars_with_logs(results))
        destinations[collar->hole] = destination_of_sheet(strip_log_kind, collar->hole);
    return destinations;
}

std::vector<DepthRange> picked_ranges(const LoggedHole& hole, bool not_there) {
    std::vector<DepthRange> ranges;
    for (const intercepts::Intercept* hit : hole.hits) ranges.push_back({hit->from, hit->to});
    for (const LeftOutPick& pick : hole.left_out) ranges.push_back({*pick.from, *pick.to});
    if (!not_there) return ranges;
    for (const intercepts::NoVeinPick* pick : hole.not_there) ranges.push_back({pick->from, pick->to});
    return ranges;
}

std::vector<std::string> log_facts(const LoggedHole& hole, const Results& results, const std::string& date) {
    const base::MapFrame& map = results.records.frame;
    const tables::Collar& collar = *hole.collar;
    const base::Direction start = hole.path->stations.front().direction;
    const Eigen::Vector3d at = map.map_from_project(hole.path->collar);
    std::string place = "Collar " + coordinates_text(hole.path->collar, map) + "  elev. " + base::fixed(at.z(), 1) + " " +
                        base::symbol_of(map.unit) + ";  starts at azimuth " + azimuth_figure(start.azimuth) + " grid, dip " +
                        base::fixed(start.dip.degrees(), 1) + "° down;  ";
    if (collar.parent) place += "daughter of " + *collar.parent + " from " + length_text(hole.path->start_depth, map) + ";  ";
    const bool active = collar.status == tables::HoleStatus::active,
               ends_deeper = hole.path->end_depth > hole.path->drilled_depth;
    place += active ? "drilled " + length_text(hole.path->drilled_depth, map)
                    : "total depth " + length_text(hole.path->end_depth, map);
    if (active && ends_deeper) place += " of " + length_text(hole.path->end_depth, map);
    const std::string core = collar.core_size.empty() ? "core size not given" : "core " + collar.core_size;
    return {place, std::string(state_words(collar.status)) + ";  " + core + ";  " + surveys_words(hole, results) + ";  " +
                       dates_words(collar, date) + (collar.campaign.empty() ? "" : ";  campaign " + collar.campaign)};
}

std::vector<std::string> log_remarks(const LoggedHole& hole, const Results& results) {
    const base::MapFrame& map = results.records.frame;
    const std::optional<std::size_t> analyte = tables::leading_analyte(results.records.analytes, results.project.cut_off.analyte);
    std::vector<std::string> lines;
    for (const intercepts::Intercept* hit : hole.hits) {
        std::string words = depth_range_text(hit->from, hit->to, map);
        if (analyte) words += ", " + hit_label(*hit, results.records, *analyte);
        if (const std::string doubt = doubt_words(*hit); !doubt.empty()) words += "; " + doubt;
        lines.push_back(hit->vein + "\t" + words);
    }
    for (const intercepts::NoVeinPick* pick : hole.not_there)
        lines.push_back(pick->vein + "\tlooked for at " + depth_range_text(pick->from, pick->to, map) + ": " +
                        (pick->state == tables::PickState::faulted ? "faulted out" : "not there"));
    for (const LeftOutPick& pick : hole.left_out) lines.push_back(pick.vein + "\t" + left_out_words(pick, map));
    for (const tables::Pick* pick : hole.commented)
        lines.push_back((pick->vein.empty() ? "pick" : pick->vein) + "\t" + depth_range_text(pick->from, pick->to, map) +
                        (pick->by.empty() ? ": “" : ", " + pick->by + ": “") + pick->comment + "”");
    for (const tables::DrillingEvent* event : hole.drilling)
        lines.push_back("drilling\t" +
                        (event->to ? depth_range_text(event->depth, *event->to, map) : length_text(event->depth, map)) + ": " +
                        event->kind + (event->note.empty() ? "" : ", " + event->note));
    for (const SaidDepth& said : hole.said)
        lines.push_back("predicted\t" + said.vein + " at " + length_figure(said.depth, map) + ", " +
                        length_figure(said.p10, map) + " to " + length_text(said.p90, map) + " in 8 of 10, " +
                        (said.is_forecast ? "by the model" : "by the other holes") + beside_words(said, hole, map) +
                        (said.unmet ? std::string(": ") + veins::words_of(*said.unmet) : ""));
    for (const base::Finding* finding : hole.findings)
        lines.push_back(
            std::string(finding->check->severity == base::Severity::note ? "note" : base::word_of(finding->check->severity)) +
            "\t" + (finding->origin.row > 0 ? finding->origin.table + " row " + std::to_string(finding->origin.row) + ": " : "") +
            finding->message);
    return lines;
}

}  // namespace selvage::sheets
