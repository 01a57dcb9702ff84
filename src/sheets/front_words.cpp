#include "sheets/front_words.h"

#include "base/text.h"
#include "sheets/check_sheet.h"
#include "sheets/finding_groups.h"
#include "sheets/flag_words.h"
#include "sheets/label_text.h"
#include "sheets/left_out.h"

#include <algorithm>
#include <set>
#include <utility>

namespace selvage::sheets {

namespace {

constexpr std::size_t groups_told = 4, pending_told = 4;

std::string metres_words(const News& news, const base::MapFrame& frame) {
    return std::string(news.metres_estimated ? "about " : "") + spaced_thousands(frame.length(news.metres)) + " " +
           base::symbol_of(frame.unit);
}

// "hole left out, 9 times (HC-08)".
std::string group_words(const FindingGroup& group) {
    const std::string holes = holes_of(group.findings);
    return flag_words(times_words(group)) + (holes.empty() ? "" : " (" + holes + ")");
}

}  // namespace

std::string headline(const News& news, const base::MapFrame& frame) {
    const std::string metres = metres_words(news, frame);
    if (!news.period)
        return "So far: " + metres + " drilled, " + count_words(news.hits, "hit") + ", " + count_words(news.misses, "hole") +
               " without the vein";
    const std::string when = news.period->since_pack ? "Since " + news.period->from : "Week to " + news.period->to;
    std::string words = when + ": " + (news.metres > 0.0 ? metres + " drilled" : std::string("nothing drilled"));
    if (news.hits + news.misses + news.assays == 0) return words + ", no new result";
    words += ", " + count_words(news.hits, "hit") + ", " +
             (news.misses == 0   ? "no miss"
              : news.misses == 1 ? "1 miss"
                                 : std::to_string(news.misses) + " misses");
    return words + (news.assays > 0 ? ", assays of " + count_words(news.assays, "earlier hit") : "");
}

std::string days_words(const News& news) {
    if (!news.period) return "No date stands with the holes or the project: this page counts all that the tables hold.";
    std::string words = "After " + news.period->from + ", up to " + news.period->to +
                        (news.period->since_pack ? ", the days since the last pack."
                                                 : ", seven days: no earlier pack was given to compare with.");
    if (news.metres_estimated) words += " Metres of a hole that was drilled on other days too are an even share of its days.";
    return words;
}

std::vector<KeyFigure> key_figures(const News& news, const Results& results, const RunFacts& run) {
    const base::MapFrame& frame = results.records.frame;
    const std::string when = news.period ? "" : " so far";
    std::size_t active = 0, planned = 0;
    for (const tables::Collar& collar : results.records.collars) {
        if (!tables::is_drill_hole(collar.type)) continue;
        active += collar.status == tables::HoleStatus::active ? 1 : 0;
        planned += collar.status == tables::HoleStatus::planned ? 1 : 0;
    }
    const auto counted = [](std::size_t count) { return std::to_string(count); };
    return {{spaced_thousands(frame.length(news.metres)),
             std::string(base::symbol_of(frame.unit)) + " drilled" + when + (news.metres_estimated ? ", about" : "")},
            {counted(news.hits), std::string(news.period ? "new hit" : "hit") + (news.hits == 1 ? "" : "s") + when},
            {counted(news.misses), std::string(news.period ? "new " : "") + (news.misses == 1 ? "miss" : "misses") + ": no vein"},
            {counted(news.pending.size()), std::string(news.pending.size() == 1 ? "hit" : "hits") + " waiting for assays"},
            {counted(active), std::string(active == 1 ? "hole" : "holes") + " drilling, " + counted(planned) + " planned"},
            {counted(run.errors),
             std::string(run.errors == 1 ? "error" : "errors") + ", " + count_words(run.warnings, "warning") + " in the data"}};
}

std::vector<Paragraph> data_words(const News& news, const RunFacts& run) {
    static const std::vector<base::Finding> none;
    const std::vector<FindingGroup> groups = finding_groups(run.findings == nullptr ? none : *run.findings);
    const std::string link = destination_of_sheet(check_sheet_kind, "");
    std::vector<Paragraph> paragraphs;
    std::size_t told = 0;
    for (const FindingGroup& group : groups) {
        if (group.check->severity == base::Severity::note || told == groups_told) continue;
        ++told;
        paragraphs.push_back({base::word_of(group.check->severity), group_words(group) + ": " + group.check->meaning, link});
    }
    if (told == 0) paragraphs.push_back({"Data", "No error and no warning in the tables.", link});
    std::string waiting;
    for (std::size_t i = 0; i < std::min(news.pending.size(), pending_told); ++i)
        waiting += (i == 0 ? "" : ", ") + news.pending[i]->hole + " (" + news.pending[i]->vein + ")";
    if (news.pending.size() > pending_told) waiting += " and " + std::to_string(news.pending.size() - pending_told) + " more";
    paragraphs.push_back(
        {"Assays",
         (waiting.empty() ? std::string("No hit waits for assays") : "Waited for: " + waiting) +
             (news.pending_samples > 0 ? "; " + count_words(news.pending_samples, "sample") + " at the laboratory." : ".")});
    return paragraphs;
}

const std::vector<VeinResult>& told_results(const News& news) {
    return news.results.empty() || !news.period ? news.latest : news.results;
}

std::vector<std::string> holes_told(const News& news, const Results& results) {
    std::vector<std::string> holes;
    const auto add = [&holes](const std::string& hole) {
        if (std::find(holes.begin(), holes.end(), hole) == holes.end()) holes.push_back(hole);
    };
    for (const VeinResult& result : told_results(news)) add(result.collar->hole);
    for (const NextPierce& next : next_pierces(results)) add(next.ahead.hole);
    return holes;
}

std::vector<std::size_t> veins_told(const News& news, const Results& results) {
    std::set<std::string> names;
    for (const VeinResult& result : told_results(news)) names.insert(result.vein);
    for (const NextPierce& next : next_pierces(results)) names.insert(next.ahead.vein);
    std::vector<std::size_t> veins;
    for (std::size_t vein = 0; vein < results.veins.size(); ++vein)
        if (names.empty() || names.count(results.veins[vein].name()) > 0) veins.push_back(vein);
    return veins;
}

}  // namespace selvage::sheets
