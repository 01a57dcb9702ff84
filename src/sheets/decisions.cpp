#include "base/calendar.h"
#include "base/text.h"
#include "sheets/check_sheet.h"
#include "sheets/finding_groups.h"
#include "sheets/front_words.h"
#include "sheets/hole_decisions.h"
#include "sheets/intercept_table.h"
#include "sheets/label_text.h"
#include "sheets/left_out.h"
#include "sheets/step_out_sheet.h"
#include "sheets/step_out_table.h"

#include <algorithm>
#include <utility>

namespace selvage::sheets {

namespace {

constexpr std::size_t step_outs_told = 3, doubtful_told = 2, overdue_told = 3, lost_told = 4, mend_named = 8;
constexpr long assays_due_days = 42;  // six weeks (common practice, no source)

Paragraph ticked(std::string strong, std::string text, std::string link) {
    Paragraph paragraph;
    paragraph.strong = std::move(strong);
    paragraph.text = std::move(text);
    paragraph.link = std::move(link);
    paragraph.tick = true;
    return paragraph;
}

void add_step_outs(std::vector<Paragraph>& all, const Results& results, const GradeClasses& classes) {
    const base::MapFrame& frame = results.records.frame;
    for (std::size_t i = 0; i < std::min(results.step_outs.size(), step_outs_told); ++i) {
        const planning::StepOut& one = results.step_outs[i];
        std::string words = length_text(one.hole.length, frame, 0) + " from " +
                            (one.hole.pad.empty() ? "the ground" : one.hole.pad) + " to " + one.target + ", chance " +
                            chance_text(one.presence);
        if (classes.any && one.accumulation)
            words += " (× TW × grade: " + base::significant(frame.length(*one.accumulation), 2) + " " + classes.unit + " " +
                     results.records.analytes[classes.analyte].element + ")";
        if (const std::string near = holes_beside_words(one, results); !near.empty()) words += "; " + near;
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

// Since when a hit has waited for its assays: since its samples were sent, else since its hole was drilled. Empty: not known.
std::string waiting_since(const intercepts::Intercept& hit, const Results& results) {
    std::string sent;
    for (const tables::Assay& assay : results.records.assays)
        if (assay.hole == hit.hole && assay.dispatch && assay.status != tables::SampleStatus::final_result && assay.from &&
            assay.to && *assay.from<hit.to&& * assay.to> hit.from && !assay.dispatch->dispatched.empty() &&
            (sent.empty() || assay.dispatch->dispatched < sent))
            sent = assay.dispatch->dispatched;
    if (!sent.empty()) return sent;
    for (const tables::Collar& collar : results.records.collars)
        if (collar.hole == hit.hole) return collar.date_finished;
    return "";
}

// A hole's hits that wait too long.
struct Overdue {
    const intercepts::Intercept* first = nullptr;
    std::string veins;
    long weeks = 0;
};

void add_overdue(std::vector<Paragraph>& all, const Results& results, const RunFacts& run) {
    const auto today = base::day_number(run.date);
    if (!today) return;
    std::vector<Overdue> overdue;
    for (const intercepts::Intercept& hit : results.intercepts.met) {
        if (hit.sampled != intercepts::SampledState::pending) continue;
        const auto since = base::day_number(waiting_since(hit, results));
        if (!since || *today - *since <= assays_due_days) continue;
        if (overdue.empty() || overdue.back().first->hole != hit.hole) overdue.push_back({&hit, "", 0});
        overdue.back().veins += (overdue.back().veins.empty() ? "" : ", ") + hit.vein;
        overdue.back().weeks = std::max(overdue.back().weeks, (*today - *since) / 7);
    }
    for (std::size_t i = 0; i < std::min(overdue.size(), overdue_told); ++i)
        all.push_back(ticked("Ask the lab",
                             "assays overdue: " + overdue[i].first->hole + " (" + overdue[i].veins + "), waited for " +
                                 std::to_string(overdue[i].weeks) + " weeks",
                             intercept_row_destination(overdue[i].first->hole, overdue[i].first->vein)));
}

// The errors by the holes that they touch: first what is lost whole.
std::string mend_words(const Results& results, const RunFacts& run) {
    std::vector<std::string> lost;
    const LeftOut left_out = left_out_by_errors(results, run);
    for (const LeftOutHole& hole : left_out.holes) lost.push_back(hole.hole + " " + left_out_words(hole));
    for (std::size_t i = 0; i < left_out.picks.size();) {
        std::size_t end = i;
        while (end < left_out.picks.size() && left_out.picks[end].why == left_out.picks[i].why) ++end;
        const LeftOutPick& pick = left_out.picks[i];
        lost.push_back(pick.hole + " " + (pick.vein.empty() ? "" : pick.vein + " ") + "picked" +
                       (end - i > 1 ? ", " + std::to_string(end - i) + " picks" : "") + ", left out: " + reason_words(*pick.why));
        i = end;
    }
    std::string words = "the " + count_words(run.errors, "error") + " in the tables";
    std::vector<const base::Finding*> errors;
    if (run.findings != nullptr)
        for (const base::Finding& finding : *run.findings)
            if (finding.check->severity == base::Severity::error) errors.push_back(&finding);
    if (const std::string holes = holes_of(errors, mend_named); !holes.empty()) words += " (" + holes + ")";
    if (lost.empty()) return words + ": what they touch is left out, cut or empty here";
    for (std::size_t i = 0; i < std::min(lost.size(), lost_told); ++i) words += (i == 0 ? ": " : "; ") + lost[i];
    if (lost.size() > lost_told) words += "; " + std::to_string(lost.size() - lost_told) + " more are lost";
    return words;
}

}  // namespace

std::vector<Paragraph> decisions(const Results& results, const GradeClasses& classes, const RunFacts& run) {
    std::vector<Paragraph> all;
    if (run.errors > 0) all.push_back(ticked("Mend", mend_words(results, run), destination_of_sheet(check_sheet_kind, "")));
    add_doubtful(all, results);
    add_overdue(all, results, run);
    for (Paragraph& one : hole_decisions(results)) all.push_back(std::move(one));
    add_step_outs(all, results, classes);
    return all;
}

}  // namespace selvage::sheets
