#include "sheets/intercept_table.h"

#include "sheets/changed_results.h"
#include "sheets/label_text.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <string>
#include <vector>

namespace selvage::sheets {
namespace {

// All words of the table, each between blanks.
std::string words_of_table(const ChangedResults& changed) {
    const MadeUpPack& pack = made_up_pack();
    const Results results = changed.results();
    return " " + all_words(intercept_table(results, pack.run, grade_classes(results), section_set(results), pack.tools()));
}

// Two grades of an analyte in per cent that the laboratory gave to three decimals: both keep them.
TEST(InterceptTable, KeepsTheLaboratorysDecimalsAllDownAColumn) {
    ChangedResults changed;
    const std::size_t lead = changed.records.analytes.size();
    changed.records.analytes.push_back({"pb_pct", "Pb", "%"});
    for (tables::Assay& assay : changed.records.assays) {
        assay.values.resize(lead);
        assay.values.push_back({0.125, false, false});
    }
    ASSERT_GT(changed.intercepts.met.size(), 2u);
    for (intercepts::Intercept& hit : changed.intercepts.met) {
        hit.grades.resize(lead);
        hit.grades.push_back(std::nullopt);
    }
    changed.intercepts.met[0].grades[lead] = intercepts::Grade{5.0, false, false};
    changed.intercepts.met[1].grades[lead] = intercepts::Grade{0.99741, false, false};
    const std::string words = words_of_table(changed);
    EXPECT_TRUE(holds(words, " 5.000 "));
    EXPECT_TRUE(holds(words, " 0.997 "));
}

// A miss weighs by what the others said: a vein that was 0.94 likely and is not there is news, one that was 0.2 likely is not.
TEST(InterceptTable, SaysHowLikelyAMissedVeinWas) {
    const ChangedResults changed;
    const std::string words = words_of_table(changed);
    std::size_t misses = 0;
    for (const veins::Vein& vein : changed.veins)
        for (const veins::NoVein& none : vein.no_vein())
            if (none.is_miss()) {
                EXPECT_TRUE(holds(words, "chance of a vein " + chance_text(none.presence))) << none.hole;
                ++misses;
            }
    ASSERT_GT(misses, 0u);
}

TEST(InterceptTable, KeepsTwoFiguresOfAGradeByWeight) {
    ChangedResults changed;
    const std::size_t silver = grade_classes(changed.results()).analyte;
    ASSERT_EQ(changed.records.analytes[silver].unit, "g/t");
    changed.intercepts.met[0].grades[silver] = intercepts::Grade{5.0, false, false};
    changed.intercepts.met[1].grades[silver] = intercepts::Grade{412.37, false, false};
    const std::string words = words_of_table(changed);
    EXPECT_TRUE(holds(words, " 5.0 "));
    EXPECT_TRUE(holds(words, " 412 "));
}

}  // namespace
}  // namespace selvage::sheets
