#include "base/text.h"
#include "sheets/card_facts.h"
#include "sheets/clearance.h"
#include "sheets/label_text.h"
#include "sheets/openings_words.h"

#include <algorithm>
#include <cmath>

namespace selvage::sheets {

namespace {

// Core without structure before a hole is stopped, in metres and in feet; common practice, no source.
constexpr double quiet_metres = 5.0, quiet_feet = 15.0;

std::string joined(const std::vector<std::string>& names) {
    constexpr std::size_t most_named = 3;
    std::string text;
    for (std::size_t i = 0; i < names.size() && i < most_named; ++i) text += (i == 0 ? "" : ", ") + names[i];
    return names.size() > most_named ? text + " and " + std::to_string(names.size() - most_named) + " more" : text;
}

std::string quiet_words(const base::MapFrame& map) {
    const double quiet = map.unit == base::LengthUnit::metre ? quiet_metres : quiet_feet;
    return base::fixed(quiet, 0) + " " + base::symbol_of(map.unit);
}

// Another vein that is due beyond the first of the places where the hole may meet this one, and before its last.
std::string between_pieces(const VeinDue& due, const std::vector<VeinDue>& veins) {
    double first = due.ahead.likeliest().depth;
    for (const forecast::Pierce* piece : due.ahead.pieces)
        if (is_within_reach(*piece)) first = std::min(first, piece->depth);
    for (const VeinDue& other : veins)
        if (other.ahead.vein != due.ahead.vein && other.ahead.likeliest().depth > first) return other.ahead.vein;
    return "";
}

// Whether the foot wall behind the deepest of the places where the vein is likely may lie past the planned end.
bool may_pass_end(const VeinDue& due, const CardFacts& facts, const Results& results) {
    double deepest = 0.0;
    for (const forecast::Pierce* piece : due.ahead.pieces)
        if (is_within_reach(*piece)) deepest = std::max(deepest, piece->depth_p90);
    return deepest + results.project.plan.tail > facts.path->end_depth;
}

// Of a fault that the expected line does not cross, the chance that the hole does; of two pieces of it, of each. Empty of others.
std::string perhaps_chance(const planning::Danger& danger, const std::vector<faults::FaultAhead>& faults) {
    if (!danger.seen_in.empty() || danger.likely) return "";
    std::string chances;
    for (const faults::FaultAhead& fault : faults)
        if (fault.name == danger.what && !fault.crosses && fault.depth_p10 <= danger.to && fault.depth_p90 >= danger.from)
            chances += (chances.empty() ? "" : " and ") + chance_text(fault.chance);
    return chances;
}

}  // namespace

std::string hole_words(const CardFacts& facts, const base::MapFrame& map) {
    std::string words = facts.is_active() ? "active hole" : "planned hole";
    if (facts.collar->parent)
        words += ", from " + *facts.collar->parent +
                 (facts.collar->kickoff ? " at " + length_text(*facts.collar->kickoff, map, 0) : "");
    words += facts.pad.empty() ? ", pad not given" : ", pad " + facts.pad;
    return words + (facts.collar->core_size.empty() ? ", core size not given" : ", core " + facts.collar->core_size);
}

std::string danger_depths(const planning::Danger& danger, const base::MapFrame& map) {
    const std::string from = length_figure(danger.from, map, 0), to = length_text(danger.to, map, 0);
    return from == length_figure(danger.to, map, 0) ? to : from + " to " + to;
}

std::string danger_kind(const planning::Danger& danger, const CardFacts& facts) {
    const std::string chance = perhaps_chance(danger, facts.faults);
    return chance.empty() ? danger.what : "perhaps " + danger.what + " (chance " + chance + ")";
}

std::string danger_words(const planning::Danger& danger, const CardFacts& facts, const base::MapFrame& map) {
    std::string words = danger_kind(danger, facts);
    if (!danger.seen_in.empty()) words += " (" + joined(danger.seen_in) + ")";
    if (danger.likely) words += ", likely at " + length_text(*danger.likely, map, 0);
    if (danger.nearest) words += ", " + length_text(*danger.nearest, map, 0) + " off";
    return words;
}

std::string workings_words(const CardFacts& facts, const Results& results) {
    if (results.site.workings.empty()) return workings_known_in_short(results);
    bool near = false, unknown = false;
    for (const planning::Danger& danger : facts.dangers) near = near || danger.what.rfind("old working", 0) == 0;
    for (const site::Working& working : results.site.workings) unknown = unknown || working.solid == nullptr;
    return near      ? "Old workings: see above."
           : unknown ? "Old workings: some of unknown depth."
                     : "No old workings known within " + length_text(planning::told_within, results.records.frame, 0) + ".";
}

std::string nearest_hole_words(const CardFacts& facts, const Results& results) {
    const bool is_next = !facts.near.under.empty();
    const planning::NearHoles& near = is_next ? facts.others : facts.near;
    if (!near.nearest) return "";
    const base::MapFrame& map = results.records.frame;
    const planning::NearHole& nearest = *near.nearest;
    const bool below_start = near.nearest_from > facts.path->start_depth;
    const bool still_parting = nearest.distance < results.project.plan.clearance;  // else it would be too near
    const std::string words = std::string(is_next ? "Next nearest hole" : "Nearest hole") +
                              (below_start ? " past " + length_text(near.nearest_from, map, 0) : "") + ": ";
    if (still_parting)
        return words + near_hole_words(nearest, map) + "; less than " + length_text(results.project.plan.clearance, map, 0) +
               ", but the two part.";
    return words + nearest.hole + ", " + length_text(nearest.distance, map, 0) + " off at " + length_text(nearest.depth, map, 0) +
           (nearest.past_end ? " (past " + facts.collar->hole + "'s planned end)" : "") + ".";
}

std::string beside_words(const CardFacts& facts, const base::MapFrame& map) {
    constexpr std::size_t most_named = 3;
    return facts.near.beside.empty() ? ""
                                     : "Starts beside " + near_hole_words(facts.near.beside, most_named, map) +
                                           (facts.near.beside.size() > 1 ? ", but they part." : ", but the two part.");
}

AskDepth ask_depth(const CardFacts& facts, const Results& results) {
    AskDepth ask{facts.path->end_depth, "", std::nullopt};
    for (const VeinAhead& ahead : facts.veins) {
        const CallAndStop rule = call_and_stop(ahead, results);
        if (rule.reached && rule.goes_on_to.empty()) ask.depth = rule.stop;
    }
    const double wanted = ask.depth;
    const auto cut_short = [&](double depth, const char* why) {
        if (depth < ask.depth) ask = {depth, why, wanted};
    };
    cut_short(facts.path->end_depth, "its planned end");
    if (facts.leaves_property) cut_short(std::floor(*facts.leaves_property), "the property's limit");
    return ask;
}

std::vector<VeinDue> veins_due(const CardFacts& facts, const Results& results) {
    const double deepest = ask_depth(facts, results).depth;
    std::vector<VeinDue> veins;
    for (const VeinAhead& ahead : facts.veins) {
        const CallAndStop rule = call_and_stop(ahead, results);
        if (!rule.reached) continue;
        const double stop = rule.goes_on_to.empty() ? deepest : std::min(rule.stop, deepest);
        veins.push_back({ahead, rule.call, stop, rule.goes_on_to});
    }
    return veins;
}

std::string core_words(const CardFacts& facts, const Results& results) {
    const std::string size = facts.collar->core_size.empty() ? "size not given" : facts.collar->core_size;
    const std::vector<VeinDue> veins = veins_due(facts, results);
    if (veins.empty()) return size + ", oriented: ask the geologist";
    double call = veins.front().call;
    for (const VeinDue& due : veins) call = std::min(call, due.call);
    if (call <= facts.from) return size + ", oriented from now on";
    return size + ", oriented from " + length_text(call, results.records.frame, 0) + " (call) on";
}

std::vector<StopRule> stop_rules(const CardFacts& facts, const Results& results) {
    const base::MapFrame& map = results.records.frame;
    std::vector<StopRule> rules;
    const std::vector<VeinDue> veins = veins_due(facts, results);
    constexpr std::size_t most_told = 2;  // each by itself; of more the key depths tell which, and where to ask
    if (veins.size() > most_told)
        rules.push_back({"All but last:", "met: call, go on to the next. Not met: stop, ask at its depth."});
    const AskDepth ask = ask_depth(facts, results);
    const bool past_end = std::any_of(veins.begin(), veins.end(), [&](const VeinDue& due) {
        return due.goes_on_to.empty() && may_pass_end(due, facts, results);
    });
    const std::string before_end = " Ask before going past " + length_text(facts.path->end_depth, map, 0) + ", the planned end.";
    for (const VeinDue& due : veins) {
        if (!due.goes_on_to.empty()) {
            if (veins.size() > most_told) continue;
            rules.push_back({due.ahead.vein + " met:", "call, go on to " + due.goes_on_to + ". Not met: stop, ask at " +
                                                           length_text(due.stop, map, 0) + "."});
            continue;
        }
        const std::string next = between_pieces(due, veins);
        rules.push_back({due.ahead.vein + " met:", (next.empty() ? "" : "go on to " + next + " if that is still to come; else ") +
                                                       "drill on through " + length_text(results.project.plan.tail, map, 0) +
                                                       " of foot wall; stop when the last " + quiet_words(map) +
                                                       " show no structure." + (past_end && ask.why.empty() ? before_end : "")});
    }
    const bool any = !veins.empty(), met_or_not = past_end && !ask.why.empty();
    std::string stop = length_text(ask.depth, map, 0);
    if (!ask.why.empty()) stop += ", " + ask.why;
    stop += met_or_not ? ", met or not, and ask" : ", and ask";
    if (ask.vein_so_far) stop += ": what is due may lie as deep as " + length_text(*ask.vein_so_far, map, 0);
    rules.push_back({met_or_not ? "At its end:"
                     : any      ? "Not met:"
                                : "No vein due:",
                     "stop at " + stop + ". Do not go on without an answer."});
    rules.push_back({"Always:", "never stop inside a structure."});
    rules.push_back({"A void:", "stop, make safe, call."});
    return rules;
}

}  // namespace selvage::sheets
