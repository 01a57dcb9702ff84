#include "sheets/alpha_table.h"

#include "base/text.h"
#include "sheets/label_text.h"

#include <algorithm>
#include <cmath>
#include <string>
#include <utility>

namespace selvage::sheets {

namespace {

constexpr std::size_t furthest_told = 3;

double difference(const veins::AlphaTest& test) { return test.alpha.degrees() - test.predicted.degrees(); }

double standardized(const veins::AlphaTest& test) { return difference(test) / std::max(1e-6, test.sd.degrees()); }

std::string percent_within(const std::vector<const veins::AlphaTest*>& tests, double sds) {
    const auto within = std::count_if(tests.begin(), tests.end(),
                                      [&](const veins::AlphaTest* test) { return std::abs(standardized(*test)) <= sds; });
    return base::fixed(100.0 * static_cast<double>(within) / static_cast<double>(tests.size()), 0);
}

// "VR-30 at 176.0 m: 47 for 57 (2.4 sd)", those beyond 2 sd, the furthest first.
std::string furthest_words(std::vector<const veins::AlphaTest*> tests, const base::MapFrame& frame) {
    const auto off = [&](const veins::AlphaTest* test) { return std::abs(standardized(*test)); };
    std::stable_sort(tests.begin(), tests.end(), [&](const auto* a, const auto* b) { return off(a) > off(b); });
    std::string words;
    for (std::size_t i = 0; i < std::min(tests.size(), furthest_told) && off(tests[i]) > 2.0; ++i)
        words += (words.empty() ? "" : "; ") + tests[i]->hole + " at " + length_text(tests[i]->depth, frame) + ": " +
                 base::fixed(tests[i]->alpha.degrees(), 0) + "° for " + base::fixed(tests[i]->predicted.degrees(), 0) + "°";
    return words.empty() ? "none beyond 2 sd" : words;
}

}  // namespace

TypesetTable alpha_table(const Results& results) {
    const std::vector<veins::AlphaTest> tests =
        veins::alpha_tests(results.orientations, results.intercepts, results.paths, results.veins, results.project.core_angles);
    TypesetTable table;
    table.heading = "Alpha tests: contacts of core that was not oriented, against the modelled walls";
    table.columns = {{"Vein", "", Cells::words, true},
                     {"Contacts", "", Cells::figures, false},
                     {"Mean off", "°", Cells::figures, false},
                     {"Within 1 sd", "%, of 68", Cells::figures, true},
                     {"Within 2 sd", "%, of 95", Cells::figures, true},
                     {"Furthest beyond 2 sd", "measured for predicted", Cells::words, false}};
    for (const veins::Vein& vein : results.veins) {
        std::vector<const veins::AlphaTest*> own;
        double sum = 0.0;
        for (const veins::AlphaTest& test : tests)
            if (test.vein == vein.name()) {
                own.push_back(&test);
                sum += difference(test);
            }
        if (own.empty()) continue;
        TableRow row;
        row.cells = {{vein.name()},
                     {std::to_string(own.size())},
                     {base::fixed(sum / static_cast<double>(own.size()), 1)},
                     {percent_within(own, 1.0)},
                     {percent_within(own, 2.0)},
                     {furthest_words(own, results.records.frame)}};
        table.rows.push_back(std::move(row));
    }
    table.end_words =
        "The sd joins how well the modelled wall's direction and the hole's are known, and how well core tells a wall's, its "
        "small "
        "waves included, as the oriented contacts show. Of few contacts the shares say little. Figures: tables/alpha_tests.csv.";
    return table;
}

}  // namespace selvage::sheets
