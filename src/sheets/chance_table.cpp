#include "sheets/chance_table.h"

#include "base/text.h"
#include "veins/presence_score.h"

#include <algorithm>
#include <cctype>
#include <cmath>
#include <cstddef>
#include <string>
#include <utility>
#include <vector>

namespace selvage::sheets {

namespace {

using veins::ChanceClass;
using veins::ChanceScore;

std::string class_words(const ChanceClass& part) {
    if (part.low <= 0.0) return "under " + base::significant(part.high, 2);
    if (part.high >= 1.0) return "over " + base::significant(part.low, 2);
    return base::significant(part.low, 2) + " to " + base::significant(part.high, 2);
}

std::string sentence(const ChanceClass& part, bool with_expected) {
    std::string words = "of " + std::to_string(part.places) + (part.places == 1 ? " place" : " places") + " given " +
                        class_words(part) + ", " + (part.came == 0 ? "none" : std::to_string(part.came)) + " had the vein";
    if (with_expected) words += " (" + base::fixed(part.expected, 1) + " to be expected)";
    return words;
}

ChanceScore score_of_all(const Results& results) {
    std::vector<veins::ToldChance> all;
    for (const veins::Vein& vein : results.veins) {
        const std::vector<veins::ToldChance> told = veins::told_chances(vein);
        all.insert(all.end(), told.begin(), told.end());
    }
    return veins::score_of(all);
}

std::string remark(const ChanceScore& score) {
    if (score.places < 2) return "one place says nothing of chances";
    if (score.came == score.places) return "no hole has missed it yet: its lower chances are untried";
    if (score.came == 0) return "no hole has met it yet: its higher chances are untried";
    const double gain = score.plain - score.brier;
    const std::string words = std::string(gain < 0.0 ? "worse" : "better") + " by " + base::fixed(std::abs(gain), 3) + " ± " +
                              base::fixed(score.gain_sd, 3);
    if (std::abs(gain) < score.gain_sd) return words + ": may be chance";
    return words + (gain > 0.0 ? ": tells more than the plain share" : ": tells less than the plain share");
}

TableRow row_of(const std::string& name, const ChanceScore& score) {
    TableRow row;
    const auto add = [&row](std::string text) { row.cells.push_back({std::move(text), {}, 1}); };
    add(name);
    add(std::to_string(score.places));
    add(std::to_string(score.came));
    add(base::fixed(score.expected, 1));
    for (const ChanceClass& part : score.classes)
        add(part.places == 0 ? "" : std::to_string(part.came) + " of " + std::to_string(part.places));
    add(score.places < 2 ? "" : base::fixed(score.brier, 3));
    add(score.places < 2 ? "" : base::fixed(score.plain, 3));
    add(remark(score));
    return row;
}

// A structure without fill has its depth, as the fit shows, and is no vein here.
std::string without_fill_words(const Results& results) {
    for (const veins::Vein& vein : results.veins)
        for (const veins::FitRow& row : vein.fit())
            if (!row.present) return " (a structure without vein material counts as no vein)";
    return {};
}

}  // namespace

std::string told_chances_words(const Results& results, bool with_expected) {
    std::string words;
    for (const ChanceClass& part : score_of_all(results).classes)
        if (part.places > 0) words += (words.empty() ? "" : "; ") + sentence(part, with_expected);
    return words;
}

TypesetTable chance_table(const Results& results) {
    TypesetTable table;
    table.heading = "Chances: how often the vein was there, by the chance that all the other holes gave the place";
    table.columns = {{"Vein", "", Cells::words, true},
                     {"Places", "", Cells::figures, false},
                     {"Had the vein", "", Cells::figures, true},
                     {"Expected", "", Cells::figures, false}};
    for (const ChanceClass& part : ChanceScore{}.classes) table.columns.push_back({class_words(part), "", Cells::words, false});
    table.columns.push_back({"Score", "of the chances", Cells::figures, true});
    table.columns.push_back({"Score", "of the plain share", Cells::figures, false});
    table.columns.push_back({"Remarks", "", Cells::words, false});
    for (const veins::Vein& vein : results.veins)
        if (const ChanceScore score = veins::score_of(veins::told_chances(vein)); score.places > 0)
            table.rows.push_back(row_of(vein.name(), score));
    if (table.rows.size() > 1) {
        table.rows.push_back(row_of("all", score_of_all(results)));
        table.rows.back().rule_above = true;
    }
    std::string words = told_chances_words(results, true);
    if (!words.empty()) words.front() = static_cast<char>(std::toupper(static_cast<unsigned char>(words.front())));
    table.end_words = words + ". Places: intercepts" + without_fill_words(results) +
                      ", and holes that count as misses, where the vein should have come. Score: mean square of "
                      "the chance less what came (1 there, 0 not), less is better; of the plain share: had each place been given "
                      "the share of hits among the others; better by: the difference of the two, with its standard deviation.";
    return table;
}

}  // namespace selvage::sheets
