#include "sheets/check_sheet.h"

#include "sheets/chance_table.h"
#include "sheets/changed_results.h"
#include "sheets/check_table.h"
#include "sheets/finding_groups.h"
#include "sheets/fit_chart.h"
#include "sheets/vein_tables.h"
#include "veins/presence_score.h"
#include "veins/vein_scene.h"

#include <gtest/gtest.h>

namespace selvage::sheets {
namespace {

const base::Check lesser = {"lesser-thing", base::Severity::warning, "A lesser thing.", "See to it."};
const base::Check wrong = {"wrong-thing", base::Severity::error, "A wrong thing.", "Mend it."};
const base::Check told_check = {"told-thing", base::Severity::note, "A thing told.", "Nothing."};

std::vector<base::Finding> findings_of(std::size_t lesser_ones) {
    std::vector<base::Finding> findings{{&told_check, {"picks", "picks.csv", 5}, "", "told once"}};
    for (std::size_t i = 0; i < lesser_ones; ++i)
        findings.push_back({&lesser, {"surveys", "surveys.csv", i + 2}, "CH-01", "lesser " + std::to_string(i) + " found"});
    findings.push_back({&wrong, {"assays", "assays.csv", 77}, "CH-02", "the wrong one"});
    return findings;
}

TEST(FindingGroups, PutErrorsFirstAndTheCommonestBeforeTheOthers) {
    std::vector<base::Finding> findings = findings_of(3);
    const std::vector<FindingGroup> groups = finding_groups(findings);
    ASSERT_EQ(groups.size(), 3u);
    EXPECT_EQ(groups[0].check, &wrong);
    EXPECT_EQ(groups[1].check, &lesser);
    EXPECT_EQ(groups[1].findings.size(), 3u);
    EXPECT_EQ(groups[2].check, &told_check);
    EXPECT_EQ(times_words(groups[1]), "lesser-thing, 3 times");
}

TEST(CheckSheet, SaysEveryFindingWithItsRowAndOfManyTheFirstAndTheCount) {
    const MadeUpPack& pack = made_up_pack();
    const std::vector<base::Finding> findings = findings_of(200);
    RunFacts run = pack.run;
    run.findings = &findings;
    const std::string words = all_words(check_sheet(pack.results(), run, pack.tools()));
    EXPECT_TRUE(holds(words, "the wrong one"));
    EXPECT_TRUE(holds(words, "77"));
    EXPECT_TRUE(holds(words, "lesser-thing, 200 times"));
    EXPECT_TRUE(holds(words, "lesser 0 found"));
    EXPECT_FALSE(holds(words, "lesser 199 found"));
    EXPECT_TRUE(holds(words, "and 194 more: full list in tables/checks.csv"));
    EXPECT_TRUE(holds(words, "1 error, 200 warnings, 1 note"));
    EXPECT_LT(words.find("wrong-thing"), words.find("lesser-thing"));
}

TEST(CheckSheet, SetsALongMessageWhole) {
    const MadeUpPack& pack = made_up_pack();
    std::string message;
    for (int i = 0; i < 120; ++i) message += (i > 0 ? " word" : "word") + std::to_string(i);
    const std::vector<base::Finding> findings{{&wrong, {"assays", "assays.csv", 7}, "", message}};
    const std::string words = all_words({check_sheet(
        pack.results(),
        [&] {
            RunFacts run = pack.run;
            run.findings = &findings;
            return run;
        }(),
        pack.tools())});
    for (int i = 0; i < 120; ++i) EXPECT_TRUE(holds(words, "word" + std::to_string(i))) << i;
    EXPECT_FALSE(holds(words, "…"));
}

TEST(CheckSheet, SaysSoWhereNothingWasFoundAndNothingModelled) {
    ChangedResults changed;
    changed.forget_veins();
    const std::string words = all_words(check_sheet(changed.results(), made_up_pack().run, made_up_pack().tools()));
    EXPECT_TRUE(holds(words, "no error, no warning, no note"));
    EXPECT_TRUE(holds(words, "core holes"));
    EXPECT_FALSE(holds(words, "came within"));
}

// A line a vein whose counts are those of its intercepts and misses, one of all; in words as a geologist counts.
TEST(ChanceTable, CountsEveryInterceptAndMissByTheChanceThatTheOthersGaveIt) {
    const MadeUpPack& pack = made_up_pack();
    const TypesetTable table = chance_table(pack.results());
    const std::vector<veins::Vein>& veins = pack.run_results.veins;
    ASSERT_EQ(table.rows.size(), veins.size() + (veins.size() > 1 ? 1 : 0));
    std::size_t all = 0;
    for (std::size_t i = 0; i < veins.size(); ++i) {
        std::size_t misses = 0, there = 0;
        for (const veins::NoVein& row : veins[i].no_vein()) misses += row.is_miss() ? 1 : 0;
        for (const veins::FitRow& row : veins[i].fit()) there += row.present ? 1 : 0;
        all += veins[i].fit().size() + misses;
        EXPECT_EQ(table.rows[i].cells[0].text, veins[i].name());
        EXPECT_EQ(table.rows[i].cells[1].text, std::to_string(veins[i].fit().size() + misses));
        EXPECT_EQ(table.rows[i].cells[2].text, std::to_string(there));
        EXPECT_EQ(table.rows[i].cells.size(), table.columns.size());
    }
    EXPECT_EQ(table.rows.back().cells[1].text, std::to_string(all));
    EXPECT_TRUE(holds(all_words(check_sheet(pack.results(), pack.run, pack.tools())), table.heading));
}

TEST(ChanceTable, SaysItInWords) {
    const MadeUpPack& pack = made_up_pack();
    std::size_t places = 0, came = 0;
    for (const veins::Vein& vein : pack.run_results.veins)
        for (const veins::ToldChance& chance : veins::told_chances(vein))
            if (chance.said >= 0.9) {
                ++places;
                came += chance.came ? 1 : 0;
            }
    ASSERT_GT(places, 1u);
    EXPECT_TRUE(holds(told_chances_words(pack.results(), false),
                      "of " + std::to_string(places) + " places given over 0.9, " + std::to_string(came) + " had the vein"));
    EXPECT_FALSE(holds(told_chances_words(pack.results(), false), "expected"));
    EXPECT_TRUE(holds(told_chances_words(pack.results(), true), "to be expected)"));
    ChangedResults changed;
    changed.forget_veins();
    EXPECT_EQ(told_chances_words(changed.results(), true), "");
    EXPECT_TRUE(chance_table(changed.results()).rows.empty());
}

// One dot and one bar an intercept; the dots outside their bars are rings.
// That a thickness that came counts half of the core lost in its pick, as the sheet says.
TEST(VeinTable, SaysWhatTheThicknessesOfTheFitCount) {
    const Results results = made_up_pack().results();
    EXPECT_TRUE(holds(vein_table(results).end_words, "core that was lost in a pick half counts"));
    std::size_t told = 0;
    for (const veins::Vein& vein : results.veins)
        for (const veins::FitRow& row : vein.fit())
            for (const intercepts::Intercept& met : results.intercepts.met) {
                if (met.hole != row.hole || met.vein != vein.name() || !row.actual_thickness || !met.true_thickness) continue;
                const double share = 1.0 - std::min(met.lost_length, met.length()) / met.length() / 2.0;
                EXPECT_NEAR(*row.actual_thickness, share * *met.true_thickness, 0.02 * *met.true_thickness) << met.hole;
                ++told;
            }
    EXPECT_GT(told, 10u);
}

TEST(FitCharts, DrawEveryInterceptOfEveryVein) {
    const MadeUpPack& pack = made_up_pack();
    const TypesetTable table = fit_charts(pack.results(), pack.tools());
    std::size_t names = 0, rows = 0;
    for (const TableRow& row : table.rows)
        for (const drawing::Mark& mark : row.cells.front().draw({0.0, 0.0, 302.0, 55.0}))
            if (const auto* text = std::get_if<drawing::Text>(&mark)) names += text->upright ? 1 : 0;
    for (const veins::Vein& vein : pack.run_results.veins) rows += vein.fit().size();
    EXPECT_GT(rows, 0u);
    EXPECT_EQ(names, rows);
}

// Its depth is foretold and came, and yet it counts among the places without the vein: said where both figures stand.
TEST(FitTable, SaysThatAStructureWithoutFillCountsAsNoVein) {
    veins::Scene scene;
    scene.lattice(3, 3);
    ChangedResults changed;
    changed.veins = scene.model();
    EXPECT_FALSE(holds(fit_table(changed.results()).end_words, "structure"));
    EXPECT_FALSE(holds(chance_table(changed.results()).end_words, "structure"));
    scene.intercepts.met[4].state = tables::PickState::structure;
    changed.veins = scene.model();
    const std::string said = fit_table(changed.results()).end_words;
    EXPECT_TRUE(holds(said, scene.intercepts.met[4].hole + " " + changed.veins.front().name())) << said;
    EXPECT_TRUE(holds(said, "for chances it counts as no vein")) << said;
    EXPECT_TRUE(holds(chance_table(changed.results()).end_words, "(a structure without vein material counts as no vein)"));
}

}  // namespace
}  // namespace selvage::sheets
