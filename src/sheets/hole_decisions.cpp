#include "sheets/hole_decisions.h"

#include "base/text.h"
#include "paths/locate.h"
#include "sheets/clearance.h"
#include "sheets/finding_groups.h"
#include "sheets/label_text.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace selvage::sheets {

namespace {

constexpr double near_call_metres = 30.0, near_call_feet = 100.0;  // soon: about a day's drilling (common practice, no source)
constexpr double least_gain = 0.05;                                // of a chance, worth a line (common practice, no source)
constexpr std::size_t lengthenings_told = 2, planned_told = 5;

// The bold start of a line and the rest of it.
struct Choice {
    std::string strong, text;
};

// The vein of the hole's target first, then by depth.
std::vector<VeinAhead> ahead_of(const CardFacts& facts, const std::vector<VeinAhead>& all) {
    std::vector<VeinAhead> own;
    for (const VeinAhead& one : all)
        if (one.hole == facts.collar->hole) own.push_back(one);
    const std::string target = facts.collar->target ? facts.collar->target->vein : "";
    std::stable_sort(own.begin(), own.end(), [&](const VeinAhead& a, const VeinAhead& b) {
        if ((a.vein == target) != (b.vein == target)) return a.vein == target;
        return a.likeliest().depth < b.likeliest().depth;
    });
    return own;
}

// Of an active hole at one of its depths; nothing where it is still far from any.
std::optional<Choice> at_the_rig(const VeinAhead& ahead, const paths::Path& path, const Results& results) {
    const base::MapFrame& frame = results.records.frame;
    const CallAndStop rule = call_and_stop(ahead, results);
    if (!rule.reached) return std::nullopt;
    const std::string at = ahead.hole + " is at " + length_text(path.drilled_depth, frame, 0);
    if (path.drilled_depth >= rule.ask())
        return Choice{"Stop " + ahead.hole, at + ", past the " + length_text(rule.ask(), frame, 0) + " to stop at for " +
                                                ahead.vein + ", and has not met it" +
                                                (rule.goes_on_to.empty() ? "" : ": whether it goes on to " + rule.goes_on_to)};
    const std::string call = length_text(rule.call, frame, 0);
    if (path.drilled_depth >= rule.call)
        return Choice{"At the rig",
                      at + ", past its call for " + ahead.vein + " at " + call + extent_words(ahead) + ": go on, wedge or stop"};
    const double soon = frame.unit == base::LengthUnit::metre ? near_call_metres : near_call_feet * base::metres_per(frame.unit);
    if (path.drilled_depth + soon >= rule.call)
        return Choice{"Call",
                      at + ", the call for " + ahead.vein + " comes at " + call + extent_words(ahead) + ": who goes to the rig"};
    return std::nullopt;
}

std::string lengthening_words(const Lengthening& one, bool reached, const base::MapFrame& frame) {
    // What the reader adds up comes out as it is printed.
    const double to = std::round(frame.length(one.to)), end = std::round(frame.length(one.to - one.metres));
    return base::fixed(to - end, 0) + " " + base::symbol_of(frame.unit) + " more, to " + length_text(one.to, frame, 0) +
           ", buys " + chance_text(one.gain) +
           (reached ? " more chance to meet " + one.ahead->vein
                    : " chance to meet " + one.ahead->vein + extent_words(*one.ahead));
}

// All that more metres would buy, the nearest first.
std::string lengthenings_words(const std::vector<Lengthening>& all, const base::MapFrame& frame) {
    std::string words;
    for (std::size_t i = 0; i < std::min(all.size(), lengthenings_told); ++i)
        words += (i == 0 ? "" : "; ") + lengthening_words(all[i], is_within_reach(*all[i].ahead), frame);
    return words;
}

std::string met_words(const VeinAhead& ahead, bool first, const base::MapFrame& frame) {
    if (ahead.pieces.size() > 1) return ahead.vein + " " + ahead_words(ahead, frame);
    return ahead.vein + " at " + length_text(ahead.likeliest().depth, frame, 0) + (first ? " (chance to meet it " : " (") +
           chance_text(chance_to_meet(ahead)) + extent_words(ahead) + ")";
}

std::optional<Choice> joined(std::vector<Choice> parts) {
    if (parts.empty()) return std::nullopt;
    Choice whole = std::move(parts.front());
    for (std::size_t i = 1; i < parts.size(); ++i) whole.text += "; " + parts[i].text;
    return whole;
}

std::string clearance_wanted(const Results& results) {
    return length_text(results.project.plan.clearance, results.records.frame, 0) + " wanted";
}

std::optional<Choice> active_choice(const CardFacts& facts, const std::vector<VeinAhead>& own, const Results& results) {
    const base::MapFrame& frame = results.records.frame;
    const std::string& hole = facts.collar->hole;
    std::vector<Choice> parts;
    for (const VeinAhead& ahead : own)
        if (std::optional<Choice> rig = at_the_rig(ahead, *facts.path, results)) parts.push_back(std::move(*rig));
    if (const std::optional<OffTarget> off = off_target(*facts.collar, results); off && off->outside)
        parts.push_back({"Steer " + hole, "steer, wedge or accept: " + off_target_words(*off, frame)});
    if (const std::string near = too_near_words(facts.near, results.records.frame); !near.empty())
        parts.push_back({"Steer " + hole, "steer, wedge or stop: " + near + ", " + clearance_wanted(results)});
    if (const std::vector<Lengthening> longer = lengthenings(own, results); !longer.empty())
        parts.push_back({"Lengthen " + hole, lengthenings_words(longer, frame)});
    return joined(std::move(parts));
}

// How much is to be drilled for which vein, and what more would buy; nothing where it meets none, however deep.
std::optional<Choice> drilling_choice(const CardFacts& facts, const std::vector<VeinAhead>& own, const base::MapFrame& frame,
                                      const std::vector<Lengthening>& longer) {
    const std::string& hole = facts.collar->hole;
    std::string met;
    for (const VeinAhead& ahead : own)
        if (is_within_reach(ahead)) met += (met.empty() ? " for " : ", and ") + met_words(ahead, met.empty(), frame);
    const std::string more = lengthenings_words(longer, frame);
    if (!met.empty())
        return Choice{"Drill " + hole, length_text(facts.path->end_depth, frame, 0) + met + (more.empty() ? "" : "; " + more)};
    if (more.empty()) return std::nullopt;
    return Choice{"Lengthen " + hole, more + "; as planned it meets none"};
}

std::optional<Choice> planned_choice(const CardFacts& facts, const std::vector<VeinAhead>& own, const Results& results) {
    const base::MapFrame& frame = results.records.frame;
    std::optional<Choice> choice = drilling_choice(facts, own, frame, lengthenings(own, results));
    const std::string near = too_near_words(facts.near, results.records.frame);
    if (near.empty()) return choice;
    return Choice{"Move " + facts.collar->hole,
                  "move or turn it: " + near + ", " + clearance_wanted(results) + (choice ? "; then " + choice->text : "")};
}

}  // namespace

std::vector<Lengthening> lengthenings(const std::vector<VeinAhead>& of_hole, const Results& results) {
    const base::MapFrame& frame = results.records.frame;
    const double unit = base::metres_per(frame.unit);
    std::vector<Lengthening> all;
    for (const VeinAhead& ahead : of_hole) {
        const paths::Path* path = paths::path_of(results.paths, ahead.hole);
        if (path == nullptr) continue;
        double stop = 0.0;
        for (const forecast::Pierce* piece : ahead.pieces) stop = std::max(stop, piece->stop_depth);
        const double gain = gain_down_to(ahead, stop), to = std::ceil(stop / unit - 1e-6) * unit;
        if (stop > path->end_depth && gain >= least_gain) all.push_back({&ahead, to - path->end_depth, to, gain});
    }
    std::stable_sort(all.begin(), all.end(), [](const Lengthening& a, const Lengthening& b) { return a.metres < b.metres; });
    return all;
}

std::vector<Paragraph> hole_decisions(const Results& results) {
    const std::vector<VeinAhead> all = veins_ahead(results.pierces);
    std::vector<Paragraph> active, planned;
    std::size_t left_out = 0;
    for (const CardFacts& facts : card_facts(results)) {
        const std::vector<VeinAhead> own = ahead_of(facts, all);
        std::optional<Choice> choice =
            facts.is_active() ? active_choice(facts, own, results) : planned_choice(facts, own, results);
        if (!choice) continue;
        if (!facts.is_active() && planned.size() == planned_told) {
            ++left_out;
            continue;
        }
        Paragraph paragraph;
        paragraph.strong = std::move(choice->strong);
        paragraph.text = std::move(choice->text);
        paragraph.link = card_destination(results, facts.collar->hole);
        paragraph.tick = true;
        (facts.is_active() ? active : planned).push_back(std::move(paragraph));
    }
    if (left_out > 0) {
        planned.emplace_back();
        planned.back().text = "and " + count_words(left_out, "more planned hole") + ": see the cards";
    }
    active.insert(active.end(), planned.begin(), planned.end());
    return active;
}

}  // namespace selvage::sheets
