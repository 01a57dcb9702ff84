#include "base/text.h"
#include "sheets/call_and_stop.h"
#include "sheets/card_facts.h"
#include "sheets/check_sheet.h"
#include "sheets/finding_groups.h"
#include "sheets/front_words.h"
#include "sheets/intercept_table.h"
#include "sheets/label_text.h"
#include "sheets/section_content.h"
#include "sheets/step_out_sheet.h"

#include <algorithm>
#include <utility>

namespace selvage::sheets {

namespace {

constexpr double near_call_metres = 30.0, near_call_feet = 100.0;  // soon: about a day's drilling (common practice, no source)
constexpr std::size_t step_outs_told = 3, planned_told = 3, doubtful_told = 2;

Paragraph ticked(std::string strong, std::string text, std::string link) {
    Paragraph paragraph;
    paragraph.strong = std::move(strong);
    paragraph.text = std::move(text);
    paragraph.link = std::move(link);
    paragraph.tick = true;
    return paragraph;
}

// Of an active hole at one of its depths; nothing where it is still far from any.
std::optional<Paragraph> active_decision(const forecast::Pierce& pierce, const paths::Path& path, const Results& results) {
    const base::MapFrame& frame = results.records.frame;
    const CallAndStop rule = call_and_stop(pierce, results);
    if (!rule.reached) return std::nullopt;
    const std::string card = card_destination(results, pierce.hole), at = " is at " + length_text(path.drilled_depth, frame, 0);
    if (path.drilled_depth >= rule.stop && rule.goes_on_to.empty())
        return ticked("Stop " + pierce.hole,
                      pierce.hole + at + ", past the " + length_text(rule.stop, frame, 0) + " to stop at for " + pierce.vein +
                          ", and has not met it",
                      card);
    if (path.drilled_depth >= rule.call)
        return ticked("At the rig",
                      pierce.hole + at + ", past its call for " + pierce.vein + " at " + length_text(rule.call, frame, 0) +
                          ": go on, wedge or stop",
                      card);
    const double soon = frame.unit == base::LengthUnit::metre ? near_call_metres : near_call_feet * base::metres_per(frame.unit);
    if (path.drilled_depth + soon >= rule.call)
        return ticked("Call",
                      pierce.hole + at + ", the call for " + pierce.vein + " comes at " + length_text(rule.call, frame, 0) +
                          ": who goes to the rig",
                      card);
    return std::nullopt;
}

void add_active(std::vector<Paragraph>& all, const Results& results) {
    for (const forecast::Pierce& pierce : results.pierces) {
        const std::size_t number = path_number(results, pierce.hole);
        if (number == results.paths.size() || results.paths[number].status != tables::HoleStatus::active) continue;
        if (std::optional<Paragraph> one = active_decision(pierce, results.paths[number], results))
            all.push_back(std::move(*one));
    }
}

void add_lengthening(std::vector<Paragraph>& all, const Results& results) {
    const base::MapFrame& frame = results.records.frame;
    for (const forecast::Pierce& pierce : results.pierces) {
        const CallAndStop rule = call_and_stop(pierce, results);
        if (rule.reached && rule.past_end)
            all.push_back(ticked("Lengthen " + pierce.hole,
                                 "to " + length_text(rule.stop, frame, 0) + " from " + length_text(*rule.past_end, frame, 0) +
                                     ", so that " + pierce.vein + " is not missed (chance that it is there " +
                                     chance_text(pierce.presence) + ")",
                                 card_destination(results, pierce.hole)));
    }
}

void add_planned(std::vector<Paragraph>& all, const Results& results) {
    const base::MapFrame& frame = results.records.frame;
    std::size_t told = 0;
    std::string before;
    for (const forecast::Pierce& pierce : results.pierces) {
        const std::size_t number = path_number(results, pierce.hole);
        if (number == results.paths.size() || results.paths[number].status != tables::HoleStatus::planned ||
            !is_within_reach(pierce) || pierce.hole == before)
            continue;
        if (told++ == planned_told) return;
        before = pierce.hole;
        all.push_back(ticked("Drill " + pierce.hole,
                             "next: " + length_text(results.paths[number].end_depth, frame, 0) + ", " + pierce.vein +
                                 " likely at " + length_text(pierce.depth, frame, 0) + ", chance that it is there " +
                                 chance_text(pierce.presence),
                             card_destination(results, pierce.hole)));
    }
}

void add_step_outs(std::vector<Paragraph>& all, const Results& results, const GradeClasses& classes) {
    const base::MapFrame& frame = results.records.frame;
    for (std::size_t i = 0; i < std::min(results.step_outs.size(), step_outs_told); ++i) {
        const planning::StepOut& one = results.step_outs[i];
        std::string words = "plan a hole to " + one.target + ": " + length_text(one.hole.length, frame, 0) + " from " +
                            (one.hole.pad.empty() ? "the ground" : one.hole.pad) + ", chance of the vein " +
                            chance_text(one.presence);
        if (classes.any && one.accumulation)
            words += ", worth " + base::significant(frame.length(*one.accumulation), 2) + " " + classes.unit;
        all.push_back(ticked("Step-out " + std::to_string(one.rank), words, destination_of_sheet(step_out_sheet_kind, "")));
    }
}

void add_doubtful(std::vector<Paragraph>& all, const Results& results) {
    std::size_t told = 0;
    for (const intercepts::Intercept& hit : results.intercepts.met) {
        if (std::find(hit.flags.begin(), hit.flags.end(), "doubtful") == hit.flags.end() || told++ >= doubtful_told) continue;
        all.push_back(ticked("Look again",
                             hit.hole + ", " + hit.vein + " at " + length_text(hit.middle(), results.records.frame) +
                                 ": far from where the other holes put it; is the pick, the survey or the vein's name wrong?",
                             intercept_row_destination(hit.hole, hit.vein)));
    }
}

}  // namespace

std::vector<Paragraph> decisions(const Results& results, const GradeClasses& classes, const RunFacts& run) {
    std::vector<Paragraph> all;
    add_active(all, results);
    if (run.errors > 0)
        all.push_back(ticked(
            "Mend", "the " + count_words(run.errors, "error") + " in the tables: what they touch is left out, cut or empty here",
            destination_of_sheet(check_sheet_kind, "")));
    add_doubtful(all, results);
    add_lengthening(all, results);
    add_planned(all, results);
    add_step_outs(all, results, classes);
    return all;
}

}  // namespace selvage::sheets
