#include "sheets/step_out_sheet.h"

#include "sheets/changed_results.h"
#include "sheets/label_text.h"
#include "sheets/step_out_table.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <set>
#include <string>

namespace selvage::sheets {
namespace {

std::vector<std::string> heads_of(const TypesetTable& table) {
    std::vector<std::string> heads;
    for (const TableColumn& column : table.columns) heads.push_back(column.head);
    return heads;
}

bool has_head(const TypesetTable& table, const std::string& head) {
    const std::vector<std::string> heads = heads_of(table);
    return std::find(heads.begin(), heads.end(), head) != heads.end();
}

const std::string& cell(const TypesetTable& table, std::size_t row, const std::string& head) {
    const std::vector<std::string> heads = heads_of(table);
    const auto column = std::find(heads.begin(), heads.end(), head);
    EXPECT_NE(column, heads.end()) << head;
    return table.rows[row].cells[static_cast<std::size_t>(column - heads.begin())].text;
}

// "A-1, A-2" of signs that stand on one another.
std::vector<std::string> names_in(std::string words) {
    std::vector<std::string> names;
    for (std::size_t at = words.find(", "); at != std::string::npos; at = words.find(", ")) {
        names.push_back(words.substr(0, at));
        words.erase(0, at + 2);
    }
    names.push_back(words);
    return names;
}

TEST(StepOutTable, RunsBackFromThePierceToItsCollar) {
    const MadeUpPack& pack = made_up_pack();
    const Results results = pack.results();
    const TypesetTable table = step_out_table(results, grade_classes(results));
    ASSERT_FALSE(results.step_outs.empty());
    for (std::size_t i = 0; i < results.step_outs.size(); ++i) {
        const planning::StepOut& one = results.step_outs[i];
        const planning::Reach& hole = one.hole;
        EXPECT_NEAR(hole.length - hole.depth, results.project.plan.tail, 1e-9);
        const Eigen::Vector3d collar = one.point - hole.depth * base::unit_vector(hole.direction);
        const Eigen::Vector3d map = results.records.frame.map_from_project(collar);
        EXPECT_EQ(cell(table, 2 * i, "Collar E"), spaced_thousands(map.x()));
        EXPECT_EQ(cell(table, 2 * i, "Collar N"), spaced_thousands(map.y()));
        EXPECT_EQ(cell(table, 2 * i, "Collar El"), spaced_thousands(map.z()));
        EXPECT_EQ(cell(table, 2 * i, "Vein at"), length_figure(hole.depth, results.records.frame, 0));
        EXPECT_EQ(cell(table, 2 * i, "End at"), length_figure(hole.length, results.records.frame, 0));
    }
}

TEST(StepOutTable, HasCostsOnlyWhereTheProjectSetsThem) {
    ChangedResults changed;
    EXPECT_FALSE(has_head(step_out_table(changed.results(), grade_classes(changed.results())), "Cost"));
    changed.project.rig.cost_per_length = 240.0;
    const TypesetTable table = step_out_table(changed.results(), grade_classes(changed.results()));
    EXPECT_TRUE(has_head(table, "Cost"));
    EXPECT_TRUE(holds(table.end_words, "cost_per_length"));
}

TEST(StepOutTable, TellsAPierceThatATrenchWouldReach) {
    ChangedResults changed;
    ASSERT_FALSE(changed.step_outs.empty());
    planning::StepOut& first = changed.step_outs.front();
    const auto under_ground = [&](double depth) {
        const Eigen::Vector3d up = Eigen::Vector3d::UnitZ();
        first.point += (*changed.site.ground.distance_along(first.point, up, 5000.0) - depth) * up;
        return step_out_table(changed.results(), grade_classes(changed.results())).rows[1].cells[1].text;
    };
    EXPECT_TRUE(holds(under_ground(6.0), "trench or short hole"));
    EXPECT_FALSE(holds(under_ground(60.0), "trench or short hole"));
}

TEST(StepOutTable, SaysTheScoreInWords) {
    settings::Plan plan;
    EXPECT_EQ(score_words(plan), "1 × what it teaches + 0.5 × what it is worth");
    plan.weights = {0.0, 0.0, 2.0};
    EXPECT_EQ(score_words(plan), "less 2 × what the hole costs");
    plan.weights = {0.0, 0.0, 0.0};
    EXPECT_TRUE(holds(score_words(plan), "all weights are 0"));
}

TEST(StepOutSheet, MapsEveryRankAndSpeaksPlainly) {
    const MadeUpPack& pack = made_up_pack();
    const std::vector<drawing::Sheet> sheets =
        step_out_sheet(pack.results(), pack.run, grade_classes(pack.results()), pack.tools());
    ASSERT_EQ(sheets.size(), 1u);
    const std::string all = all_words(sheets);
    EXPECT_FALSE(holds(all, "greedy"));
    EXPECT_FALSE(holds(all, "teaches most"));
    EXPECT_FALSE(holds(all, "see the sheet of next holes")) << "this is that sheet";
    EXPECT_TRUE(holds(all, "El "));
    std::size_t on_maps = 0;
    for (const planning::StepOut& one : pack.run_results.step_outs)
        on_maps += static_cast<std::size_t>(
            std::count_if(sheets.front().items.begin(), sheets.front().items.end(), [&](const drawing::Item& item) {
                const auto* text = std::get_if<drawing::Text>(&item.mark);
                return item.window > 0 && text != nullptr && text->text == std::to_string(one.rank);
            }));
    EXPECT_EQ(on_maps, pack.run_results.step_outs.size());
    for (std::size_t i = 1; i < sheets.front().windows.size(); ++i) EXPECT_GT(sheets.front().windows[i].metres_per_mm, 0.0);
}

TEST(StepOutTable, ShowsTheSumByWhichARankIsChosen) {
    const MadeUpPack& pack = made_up_pack();
    const Results results = pack.results();
    const TypesetTable table = step_out_table(results, grade_classes(results));
    for (std::size_t i = 0; i < results.step_outs.size(); ++i) {
        const std::vector<double>& weights = results.project.plan.weights;
        const double sum = weights[0] * std::stod(cell(table, 2 * i, "Teaches")) / 100.0 +
                           weights[1] * std::stod(cell(table, 2 * i, "Worth")) / 100.0;
        ASSERT_EQ(weights[2], 0.0);
        EXPECT_NEAR(std::stod(cell(table, 2 * i, "Sum")), sum, 0.0151) << "but for rounding";
        EXPECT_FALSE(has_head(table, "Costs"));
    }
}

TEST(StepOutTable, SaysWhyNoPadServesAndWhatIsPassedNearerThanTheClearance) {
    ChangedResults changed;
    planning::StepOut& first = changed.step_outs.front();
    first.no_pad = "P9, the nearest: too far for the rig";
    // Down the middle of a drilled hole, from a collar off to its side.
    const paths::Path& other = changed.paths.front();
    const Eigen::Vector3d met = paths::position_at(other, (other.start_depth + other.drilled_depth) / 2.0);
    first.hole.collar = met + Eigen::Vector3d(40.0, 0.0, 60.0);
    first.hole.direction = base::direction_of((met - first.hole.collar).normalized());
    first.hole.length = 100.0;
    const auto words = [&] { return step_out_table(changed.results(), grade_classes(changed.results())).rows[1].cells[1].text; };
    EXPECT_TRUE(holds(words(), "no pad serves (P9, the nearest: too far for the rig)")) << words();
    EXPECT_TRUE(holds(words(), "passes " + other.hole + " 0.")) << words();
    changed.project.plan.clearance = 0.0;
    EXPECT_FALSE(holds(words(), "passes "));
}

// The first rank starts 2 m from a drilled hole and leaves it the other way.
void start_beside_a_hole(ChangedResults& changed) {
    const paths::Path& other = changed.paths.front();
    const Eigen::Vector3d along =
        paths::position_at(other, other.start_depth + 30.0) - paths::position_at(other, other.start_depth);
    planning::Reach& hole = changed.step_outs.front().hole;
    hole.collar = other.collar + Eigen::Vector3d(2.0, 0.0, 0.0);
    hole.direction = base::direction_of(Eigen::Vector3d(-along.x(), -along.y(), along.z()).normalized());
}

// Words that no row uses are not explained.
TEST(StepOutTable, ExplainsTheWordsThatItUses) {
    ChangedResults changed;
    const auto note = [&] { return step_out_table(changed.results(), grade_classes(changed.results())).end_words; };
    changed.project.plan.clearance = 0.0;
    EXPECT_FALSE(holds(note(), "asses\"")) << note();
    EXPECT_FALSE(holds(note(), "lose beside")) << note();
    changed.project.plan.clearance = 500.0;
    EXPECT_TRUE(holds(note(), "\"Passes\": nearer than 500 m, the clearance.")) << note();
    start_beside_a_hole(changed);
    changed.project.plan.clearance = 5.0;
    EXPECT_TRUE(holds(note(), "lose beside\": nearer than 5 m, the clearance. Beside a hole that starts")) << note();
}

// Every planned or active hole that pierces a vein with a rank is named on its map.
TEST(StepOutSheet, NamesWhatIsPlannedOnTheMaps) {
    const MadeUpPack& pack = made_up_pack();
    const Results results = pack.results();
    const drawing::Sheet sheet = step_out_sheet(results, pack.run, grade_classes(results), pack.tools()).front();
    std::set<std::size_t> ranked;
    for (const planning::StepOut& one : results.step_outs) ranked.insert(one.vein_number);
    std::set<std::string> named;
    for (const drawing::Item& item : sheet.items)
        if (const auto* text = std::get_if<drawing::Text>(&item.mark); text != nullptr && item.window > 0)
            named.insert(text->text);
    std::size_t pierces = 0, hits = 0;
    for (const forecast::Pierce& pierce : results.pierces) {
        if (ranked.count(pierce.vein_number) == 0 || pierce.presence <= 0.0) continue;
        pierces += named.count(pierce.hole);
    }
    for (const intercepts::Intercept& hit : results.intercepts.met) hits += named.count(hit.hole);
    EXPECT_GT(pierces, 2u);
    EXPECT_GT(hits, 2u);
}

// A miss is named before a hit, and each map counts what it leaves without a name.
TEST(StepOutSheet, NamesMissesFirstAndCountsWhatItDoesNotName) {
    const MadeUpPack& pack = made_up_pack();
    const Results results = pack.results();
    const drawing::Sheet sheet = step_out_sheet(results, pack.run, grade_classes(results), pack.tools()).front();
    std::set<std::string> named;
    for (const drawing::Item& item : sheet.items)
        if (const auto* text = std::get_if<drawing::Text>(&item.mark); text != nullptr && item.window > 0)
            for (const std::string& name : names_in(text->text)) named.insert(name);
    std::set<std::size_t> ranked;
    for (const planning::StepOut& one : results.step_outs) ranked.insert(one.vein_number);
    std::size_t hits_left = 0;
    for (const std::size_t vein : ranked) {
        for (const veins::NoVein& none : results.veins[vein].no_vein())
            EXPECT_TRUE(!none.is_miss() || named.count(none.hole) == 1) << none.hole;
        for (const intercepts::Intercept& hit : results.intercepts.met)
            hits_left += hit.vein == results.veins[vein].name() && named.count(hit.hole) == 0 ? 1 : 0;
    }
    EXPECT_EQ(holds(all_words({sheet}), " not named"), hits_left > 0) << hits_left;
}

// Which holes the clearance is kept from and from where on, of whom no model knows, and how well a collar's elevation is known.
TEST(StepOutTable, SaysWhatItKeepsClearOf) {
    ChangedResults changed;
    const auto table = [&] { return step_out_table(changed.results(), grade_classes(changed.results())); };
    ASSERT_FALSE(changed.step_outs.empty());
    {
        ChangedResults beside;
        start_beside_a_hole(beside);
        const std::string words = step_out_table(beside.results(), grade_classes(beside.results())).end_words;
        EXPECT_TRUE(holds(words, "within 15 m, that counts past the first 30 m")) << words;
    }
    const planning::Reach& hole = changed.step_outs.front().hole;
    tables::Collar row;
    row.hole = "LOST";
    const Eigen::Vector3d ahead = base::unit_vector(hole.direction);
    row.position = hole.collar - 4.0 * Eigen::Vector3d(ahead.x(), ahead.y(), 0.0).normalized();  // behind the rig
    row.depth = 100.0;
    EXPECT_FALSE(holds(table().rows[1].cells[1].text, "LOST"));
    changed.records.left_out = {row};
    EXPECT_TRUE(holds(table().rows[1].cells[1].text, "LOST 4.0 m off at 0 m")) << table().rows[1].cells[1].text;
    changed.step_outs.front().hole.pad.clear();
    const bool assumed = !changed.site.ground.is_given_at(hole.collar.head<2>());
    EXPECT_EQ(holds(table().end_words, "that of a plane through collars and outcrops, ±"), assumed) << table().end_words;
}

}  // namespace
}  // namespace selvage::sheets
