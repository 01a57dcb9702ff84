#include "sheets/vein_ahead.h"

#include "paths/locate.h"
#include "sheets/card_facts.h"
#include "sheets/changed_results.h"
#include "sheets/cross_section.h"
#include "sheets/drill_site_card.h"
#include "sheets/forecast_note.h"
#include "sheets/forecast_table.h"
#include "sheets/key_plan.h"
#include "sheets/label_text.h"
#include "sheets/long_section_labels.h"
#include "sheets/own_plane.h"
#include "sheets/pierce_sign.h"

#include <gtest/gtest.h>

#include <algorithm>

namespace selvage::sheets {
namespace {

forecast::Pierce piece(const std::string& block, double chance, double depth) {
    forecast::Pierce made;
    made.hole = "K-1";
    made.vein = "North";
    made.crossing.block = block;
    made.crossing.chance = made.chance_reached = chance;
    made.depth = depth;
    made.depth_p10 = depth - 4.0;
    made.depth_p90 = depth + 4.0;
    made.presence = 0.5;
    return made;
}

// The made-up pack where a fault may part the vein that one hole is to meet alone: there, or 20 m further down.
struct PartedAhead : ChangedResults {
    std::string hole;
    PartedAhead() {
        for (const VeinAhead& ahead : veins_ahead(pierces)) {
            const auto of_hole =
                std::count_if(pierces.begin(), pierces.end(), [&](const auto& pierce) { return pierce.hole == ahead.hole; });
            if (of_hole == 1 && is_within_reach(ahead) && hole.empty()) hole = ahead.hole;
        }
        const auto first = std::find_if(pierces.begin(), pierces.end(), [&](const auto& pierce) { return pierce.hole == hole; });
        forecast::Pierce further = *first;
        first->crossing.block = "Cross Fault-";
        first->crossing.chance = first->chance_reached = 0.8;
        further.crossing.block = "Cross Fault+";
        further.crossing.chance = further.chance_reached = 0.1;
        for (double* depth : {&further.depth, &further.depth_p10, &further.depth_p90, &further.call_depth, &further.stop_depth})
            *depth += 20.0;
        further.flags = {"beyond-extent"};
        pierces.insert(first + 1, further);
    }
    const forecast::Pierce& first() const {
        return *std::find_if(pierces.begin(), pierces.end(), [&](const auto& pierce) { return pierce.hole == hole; });
    }
};

std::size_t times(const std::string& words, const std::string& part) {
    std::size_t count = 0;
    for (std::size_t at = words.find(part); at != std::string::npos; at = words.find(part, at + 1)) ++count;
    return count;
}

TEST(VeinAheadLines, TellTheTwoDepthsWithTheirChancesAndTheSumOfThem) {
    const std::vector<forecast::Pierce> pierces{piece("Cross Fault-", 0.8, 293.0), piece("Cross Fault+", 0.1, 313.0)};
    const std::vector<std::string> lines = ahead_lines(veins_ahead(pierces).front(), {});
    EXPECT_EQ(lines, (std::vector<std::string>{
                         "likely at 293 m (0.40), or 313 m (0.05)", "between 289 and 297, or 309 and 317, in 8 holes of 10",
                         "in the foot wall of Cross Fault, or its hanging wall", "chance to meet it in one of them 0.45"}));
    const std::vector<std::string> here = piece_lines(pierces[1], veins_ahead(pierces).front(), {});
    EXPECT_EQ(here,
              (std::vector<std::string>{"at 313 m, in the hanging wall of Cross Fault", "between 309 and 317 in 8 holes of 10",
                                        "chance to meet it here 0.05, at 293 m 0.40"}));
}

// Two pieces that are both crossed, each with the vein in one hole of two: one of them in three of four.
TEST(VeinAheadLines, AVeinThatIsCrossedTwiceIsNotCountedTwice) {
    const std::vector<forecast::Pierce> pierces{piece("Cross Fault-", 1.0, 293.0), piece("Cross Fault+", 1.0, 313.0)};
    const VeinAhead ahead = veins_ahead(pierces).front();
    EXPECT_NEAR(chance_to_meet(ahead), 0.75, 1e-12);
    EXPECT_EQ(ahead_lines(ahead, {}).front(), "likely at 293 m (0.50), and 313 m (0.50)");
    EXPECT_EQ(ahead_lines(ahead, {}).back(), "chance to meet it at all 0.75");
}

TEST(VeinAheadLines, SayWhatLiesOutsideTheModelOrPastTheHole) {
    std::vector<forecast::Pierce> pierces{piece("", 1.0, 293.0)};
    pierces[0].flags = {"beyond-extent"};
    EXPECT_EQ(pierce_words(pierces[0], {}),
              "likely at 293 m; between 289 and 297 in 8 holes of 10; chance that it is there 0.50, outside the modelled ground");
    pierces = {piece("A-", 0.8, 293.0), piece("A+", 0.1, 313.0)};
    pierces[1].chance_reached = 0.0;
    pierces[1].flags = {"beyond-extent"};
    EXPECT_EQ(ahead_lines(veins_ahead(pierces).front(), {}).front(),
              "likely at 293 m (0.40), or 313 m (past the hole's end, outside the modelled ground)");
    pierces[1].crossing.chance = pierces[1].chance_reached = 0.016;  // the hole gets there, but seldom crosses it
    EXPECT_TRUE(holds(ahead_lines(veins_ahead(pierces).front(), {}).front(), "or 313 m (0.01, outside"));
    pierces[1].crossing.chance = 0.1;
    pierces[1].chance_reached = 0.0;
    pierces[0].chance_reached = 0.0;
    EXPECT_EQ(ahead_lines(veins_ahead(pierces).front(), {}).back(),
              "chance that it is there in one of them 0.45, the hole ends before it");
}

// Of two blocks one alone can come true: only the likelier has the mark of a likely pierce point.
TEST(PartedVeinAhead, HasOneLikelyPiercePoint) {
    const PartedAhead made;
    const Results results = made.results();
    std::vector<Sign> signs;
    for (const forecast::Pierce& pierce : results.pierces)
        if (pierce.hole == made.hole) signs.push_back(sign_of(pierce, results));
    ASSERT_EQ(signs.size(), 2u);
    EXPECT_TRUE(signs[0] == Sign::planned_pierce || signs[0] == Sign::active_pierce);
    EXPECT_EQ(signs[1], Sign::less_likely_pierce);
}

TEST(PartedVeinAhead, HasOneCallAndOneStopOnTheCard) {
    const PartedAhead made;
    const Results results = made.results();
    for (const CardFacts& facts : card_facts(results)) {
        if (facts.collar->hole != made.hole) continue;
        const std::vector<VeinDue> due = veins_due(facts, results);
        ASSERT_EQ(due.size(), 1u);
        EXPECT_TRUE(due[0].goes_on_to.empty());
        const CallAndStop rule = call_and_stop(veins_ahead(facts.pierces, results.pierces).front(), results);
        EXPECT_EQ(due[0].call, rule.call);
        EXPECT_LE(rule.call, made.first().call_depth);
        EXPECT_GE(rule.stop, made.first().stop_depth + 20.0);
        const std::string words =
            all_words(drill_site_card(facts, 1, 1, results, made_up_pack().run, section_set(results), made_up_pack().tools()));
        EXPECT_EQ(times(words, "call " + length_figure(rule.call, results.records.frame, 0)), 1u);
        EXPECT_EQ(times(words, " met: ") + times(words, "At its end: "), 2u) << "the vein's, and where it is not met: " << words;
        EXPECT_EQ(times(words, "NOT MET: ASK AT"), 1u);
        EXPECT_EQ(times(words, "stop " + length_figure(due[0].stop, results.records.frame, 0)), 1u)
            << "one flag for all its pieces";
        EXPECT_FALSE(holds(words, "go on to " + made.first().vein));
        EXPECT_TRUE(holds(words, ahead_lines(facts.veins.front(), results.records.frame).front()));
        EXPECT_TRUE(holds(words, "outside the modelled ground"));
        return;
    }
    FAIL() << "no card of " << made.hole;
}

// Met in its first block, the vein leaves another one, due before its second block, still to come.
TEST(PartedVeinAhead, AnotherVeinBetweenItsBlocksIsNotForgotten) {
    PartedAhead made;
    forecast::Pierce between = made.first();
    between.vein = "Between";
    between.vein_number = made.veins.size();
    between.crossing.block.clear();
    between.chance_reached = between.crossing.chance = 1.0;
    for (double* depth : {&between.depth, &between.depth_p10, &between.depth_p90, &between.call_depth, &between.stop_depth})
        *depth += 10.0;
    const std::string vein = made.first().vein;
    for (const bool with_it : {false, true}) {
        if (with_it) made.pierces.push_back(between);
        const Results results = made.results();
        for (const CardFacts& facts : card_facts(results)) {
            if (facts.collar->hole != made.hole) continue;
            for (const StopRule& rule : stop_rules(facts, results))
                if (rule.when == vein + " met:") {
                    EXPECT_EQ(rule.rule.rfind("go on to Between if that is still to come; else drill on", 0) == 0, with_it)
                        << rule.rule;
                }
        }
    }
}

TEST(PartedVeinAhead, IsOneRowOfOrdersOnSectionsTablesAndNotes) {
    const PartedAhead made;
    const Results results = made.results();
    const Tools tools = made_up_pack().tools();
    const GradeClasses classes = grade_classes(results);
    const SectionSet sections = section_set(results);
    const CallAndStop rule = call_and_stop(vein_ahead_of(made.first(), results.pierces), results);
    const std::string call = length_figure(rule.call, results.records.frame, 0);
    const paths::Path& path = *paths::path_of(results.paths, made.hole);
    const std::string section = all_words(
        cross_sections(results, own_plane(path, path.end_depth, sections), classes, key_map(results), made_up_pack().run, tools));
    EXPECT_EQ(times(section, "call " + call), 1u);
    EXPECT_EQ(times(section, "the geologist"), 1u);
    EXPECT_TRUE(holds(section, "or its"));

    const TypesetTable table = forecast_table(results, classes, sections);
    std::size_t calls = 0, rows = 0;
    for (const TableRow& row : table.rows) {
        if (row.cells.front().text != made.hole) continue;
        ++rows;
        calls += std::count_if(row.cells.begin(), row.cells.end(), [&](const TableCell& cell) { return cell.text == call; });
    }
    EXPECT_EQ(rows, 2u);
    EXPECT_EQ(calls, 1u);

    const std::vector<const forecast::Pierce*> shown{&made.first(), &made.first() + 1};
    const std::string line = forecast_note_line(shown, results);
    EXPECT_EQ(times(line, made.hole), 1u) << line;
    EXPECT_EQ(times(line, "call at " + call), 1u) << line;
    const std::optional<ForecastNote> note = forecast_note(shown, results, classes, {0.0, 0.0, 300.0, 200.0}, {}, {}, tools);
    ASSERT_TRUE(note);
    std::string cells;
    for (const Mark& mark : note->marks)
        if (const auto* text = std::get_if<drawing::Text>(&mark)) cells += "|" + text->text;
    EXPECT_EQ(times(cells + "|", "|" + call + "|"), 1u) << cells;
    EXPECT_EQ(times(cells + "|", "|or|"), 1u) << cells;
    for (const forecast::Pierce* piece : shown)
        EXPECT_TRUE(holds(cells, "|" + chance_text(piece->presence * piece->crossing.chance))) << cells;
    EXPECT_TRUE(holds(cells, "outside the modelled ground"));
    EXPECT_TRUE(holds(forecast_lines(made.first(), results).back(), "chance to meet it here"));
}

// Of a vein in two blocks too the remarks say that the hole ends before it, and before the one that it does not come to.
TEST(PartedVeinAhead, RemarksSayThatTheHoleEndsBeforeIt) {
    PartedAhead made;
    const auto remarks = [&] {
        const Results results = made.results();
        std::vector<std::string> told;
        for (const TableRow& row : forecast_table(results, grade_classes(results), section_set(results)).rows)
            if (row.cells.front().text == made.hole) told.push_back(row.cells.back().text);
        return told;
    };
    ASSERT_EQ(remarks().size(), 2u);
    for (const std::string& words : remarks()) EXPECT_FALSE(holds(words, "ends before")) << words;
    const auto piece = [&](std::size_t number) {
        return std::find_if(made.pierces.begin(), made.pierces.end(), [&](const auto& one) { return one.hole == made.hole; }) +
               static_cast<std::ptrdiff_t>(number);
    };
    piece(1)->chance_reached = 0.0;
    EXPECT_FALSE(holds(remarks()[0], "ends before")) << remarks()[0];
    EXPECT_TRUE(holds(remarks()[1], "ends before it here")) << remarks()[1];
    piece(0)->chance_reached = 0.0;
    for (const std::string& words : remarks()) EXPECT_TRUE(holds(words, "ends before the vein")) << words;
}

}  // namespace
}  // namespace selvage::sheets
