#include "sheets/intercept_table.h"

#include "paths/locate.h"
#include "sheets/changed_results.h"
#include "sheets/flag_words.h"
#include "sheets/front_words.h"
#include "sheets/label_text.h"
#include "sheets/page.h"
#include "sheets/section_set.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <string>
#include <tuple>
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

constexpr base::Check differ{"collars-differ", base::Severity::error, "They differ.", "Mend one."};
constexpr base::Check gone{"hole-left-out", base::Severity::error, "Its rows go too.", "Mend its collar."};
constexpr base::Check twice{"vein-met-twice", base::Severity::error, "Twice.", "Tell them apart."};

// A hole whose collar rows differ, and a vein that its picks meet twice, as the checks leave them behind.
struct ErrorsOfTables {
    ChangedResults changed;
    std::string hole, vein;
    std::vector<base::Finding> findings;
    RunFacts run = made_up_pack().run;

    ErrorsOfTables() {
        const intercepts::Intercept hit = changed.intercepts.met.front();
        hole = hit.hole;
        vein = hit.vein;
        changed.intercepts.met.erase(changed.intercepts.met.begin());
        findings = {{&differ, {"collars", "collars.csv", 3}, "GONE-1", "differs"},
                    {&gone, {"assays", "assays.csv", 9}, "GONE-1", "left out"},
                    {&gone, {"picks", "picks.csv", 900}, "GONE-1", "left out"},
                    {&differ, {"collars", "collars.csv", 4}, "GONE-2", "differs"}};
        for (const tables::Pick& pick : changed.records.picks)
            if (pick.hole == hole && pick.vein == vein) findings.push_back({&twice, pick.origin, hole, "both are left out"});
        run.findings = &findings;
        run.errors = findings.size();
    }
    ErrorsOfTables(const ErrorsOfTables&) = delete;
};

TEST(InterceptTable, TellsOfHolesAndPicksThatAnErrorLeavesOut) {
    const ErrorsOfTables one;
    ASSERT_GT(one.findings.size(), 4u);
    const Results results = one.changed.results();
    const std::string words =
        all_words(intercept_table(results, one.run, grade_classes(results), section_set(results), made_up_pack().tools()));
    EXPECT_TRUE(holds(words, "GONE-1 drilled, place in doubt, left out: collars differ (see the checks)"));
    EXPECT_FALSE(holds(words, "GONE-2"));  // not drilled: no intercept is missed
    EXPECT_TRUE(holds(words, one.hole + " " + one.vein + " picked at "));
    EXPECT_TRUE(holds(words, ", left out: vein met twice (see the checks)"));
    EXPECT_TRUE(holds(words, ", 2 left out by errors. Low and nil results are kept"));
    EXPECT_FALSE(holds(words_of_table(ChangedResults()), "left out by errors"));
}

TEST(Decisions, NameTheHolesWhoseErrorsAreToBeMended) {
    const ErrorsOfTables one;
    const Results results = one.changed.results();
    const std::vector<Paragraph> all = decisions(results, grade_classes(results), one.run);
    ASSERT_FALSE(all.empty());
    EXPECT_EQ(all.front().strong, "Mend");
    EXPECT_TRUE(holds(all.front().text, "(GONE-1, GONE-2, " + one.hole + "): GONE-1 drilled, place in doubt, left out"))
        << all.front().text;
    EXPECT_TRUE(holds(all.front().text, one.hole + " " + one.vein + " picked, left out: vein met twice")) << all.front().text;
    std::string data;
    for (const Paragraph& paragraph : data_words(News(), one.run)) data += paragraph.text + " ";
    EXPECT_TRUE(holds(data, "hole left out, twice (GONE-1): "));
    EXPECT_TRUE(holds(data, "collars differ, twice (GONE-1, GONE-2): "));
}

TEST(InterceptTable, SaysWhatAnAssayedHitWasNotAssayedFor) {
    ChangedResults changed;
    changed.records.analytes.push_back({"xx_ppm", "Xx", "ppm"});
    for (intercepts::Intercept& hit : changed.intercepts.met) hit.sampled = intercepts::SampledState::not_sampled;
    EXPECT_FALSE(holds(words_of_table(changed), " n.a. "));
    changed.intercepts.met.front().sampled = intercepts::SampledState::assayed;
    EXPECT_TRUE(holds(words_of_table(changed), " n.a. "));
}

// On paper too narrow for the column of states as well: in the grade's own cell.
TEST(InterceptTable, SaysInTheGradesCellWhyThereIsNone) {
    ChangedResults changed;
    const auto times = [&](const char* word) {
        const std::string words = words_of_table(changed);
        std::size_t found = 0;
        for (std::size_t at = words.find(word); at != std::string::npos; at = words.find(word, at + 1)) ++found;
        return found;
    };
    for (intercepts::Intercept& hit : changed.intercepts.met) hit.sampled = intercepts::SampledState::assayed;
    const std::size_t pending = times("pending"), not_sampled = times("not sampled");
    for (const auto& [state, word, before] :
         {std::make_tuple(intercepts::SampledState::pending, "pending", pending),
          std::make_tuple(intercepts::SampledState::not_sampled, "not sampled", not_sampled)}) {
        changed.intercepts.met.front().sampled = state;
        for (std::optional<intercepts::Grade>& grade : changed.intercepts.met.front().grades) grade.reset();
        EXPECT_EQ(times(word) - before, 2u) << word << ", as the grade and as the state of the assays";
    }
}

// A hole that stops short of a vein that was due where there is no section.
TEST(InterceptTable, LeadsToTheSectionOfTheEndOfAHoleThatStoppedShort) {
    ChangedResults changed;
    const MadeUpPack& pack = made_up_pack();
    const Results results = changed.results();
    SectionSet sections = section_set(results);
    const veins::NoVein* none = nullptr;
    for (const veins::Vein& vein : results.veins)
        for (const veins::NoVein& one : vein.no_vein()) {
            const paths::Path* path = paths::path_of(results.paths, one.hole);
            if (one.reason == veins::NoVeinReason::stopped_short && path != nullptr &&
                section_of(sections, paths::position_at(*path, path->end_depth)) &&
                sheet_of(sections, one.point) != sheet_of(sections, paths::position_at(*path, path->end_depth)))
                none = &one;
        }
    ASSERT_NE(none, nullptr);
    const std::string due = sheet_of(sections, none->point);
    sections.sections.erase(std::remove_if(sections.sections.begin(), sections.sections.end(),
                                           [&due](const Section& section) { return section.name == due; }),
                            sections.sections.end());
    const auto end_of = [&](const std::string& hole) {
        const paths::Path& path = *paths::path_of(results.paths, hole);
        return sheet_of(sections, paths::position_at(path, path.end_depth));
    };
    const std::string end = end_of(none->hole);
    std::size_t wanted = 0, led = 0;
    for (const intercepts::Intercept& hit : results.intercepts.met) wanted += sheet_of(sections, hit.point) == end ? 1 : 0;
    for (const veins::Vein& vein : results.veins)
        for (const veins::NoVein& one : vein.no_vein()) {
            const bool short_of_it = one.reason == veins::NoVeinReason::stopped_short && !section_of(sections, one.point);
            wanted += (short_of_it ? end_of(one.hole) : sheet_of(sections, one.point)) == end ? 1 : 0;
        }
    for (const drawing::Sheet& sheet : intercept_table(results, pack.run, grade_classes(results), sections, pack.tools()))
        for (const drawing::Item& item : sheet.items)
            if (const auto* text = std::get_if<drawing::Text>(&item.mark); text != nullptr && text->text == end)
                led += text->link == destination_of_sheet("cross-section", end) ? 1 : 0;
    EXPECT_EQ(led, wanted);
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

// Only the states that occur are explained.
TEST(InterceptTable, ExplainsTheStatesOfItsPicks) {
    ChangedResults changed;
    for (intercepts::Intercept& hit : changed.intercepts.met) hit.state = tables::PickState::vein;
    const auto meaning = [](tables::PickState state) { return intercepts::word_of(state) + (" " + state_meaning(state)); };
    const std::vector<tables::PickState> states{tables::PickState::structure, tables::PickState::open_void,
                                                tables::PickState::lost};
    const auto first_words = [&](tables::PickState state) { return state_meaning(state).substr(0, 24); };
    for (const tables::PickState state : states) EXPECT_FALSE(holds(words_of_table(changed), first_words(state)));
    for (const tables::PickState state : states) {
        changed.intercepts.met.front().state = state;
        const std::string words = words_of_table(changed);
        for (const tables::PickState other : states)
            EXPECT_EQ(holds(words, first_words(other)), other == state) << meaning(other);
    }
}

}  // namespace
}  // namespace selvage::sheets
