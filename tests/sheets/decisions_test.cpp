#include "sheets/changed_results.h"
#include "sheets/clearance.h"
#include "sheets/flag_words.h"
#include "sheets/front_words.h"
#include "sheets/hole_decisions.h"
#include "sheets/vein_ahead.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <set>

namespace selvage::sheets {
namespace {

// A forecast that is sure to come between two depths, evenly.
forecast::Pierce even(const std::string& block, double chance, double from, double to, double end) {
    forecast::Pierce pierce;
    pierce.hole = "K-1";
    pierce.vein = "North";
    pierce.crossing.block = block;
    pierce.crossing.chance = chance;
    pierce.crossing.depth = {from, to};
    pierce.crossing.cumulative = {0.0, chance};
    pierce.depth = (from + to) / 2.0;
    pierce.presence = 0.5;
    pierce.chance_reached = pierce.crossing.cumulative_at(end);
    return pierce;
}

TEST(VeinAhead, GainIsPresenceTimesTheChanceThatMoreMetresBuy) {
    const std::vector<forecast::Pierce> pierces{even("", 1.0, 100.0, 200.0, 120.0)};
    const VeinAhead ahead = veins_ahead(pierces).front();
    EXPECT_NEAR(chance_to_meet(ahead), 0.5 * 0.2, 1e-12);
    EXPECT_NEAR(gain_down_to(ahead, 150.0), 0.5 * 0.3, 1e-12);
    EXPECT_NEAR(gain_down_to(ahead, 300.0), 0.5 * 0.8, 1e-12);
    EXPECT_NEAR(gain_down_to(ahead, 110.0), 0.0, 1e-12);
}

TEST(VeinAhead, TellsBlocksOfOneVeinAsAlternatives) {
    std::vector<forecast::Pierce> pierces{even("Cross Fault+", 0.2, 210.0, 230.0, 300.0),
                                          even("Cross Fault-", 0.8, 180.0, 200.0, 300.0)};
    const std::vector<VeinAhead> all = veins_ahead(pierces);
    ASSERT_EQ(all.size(), 1u);
    EXPECT_EQ(ahead_words(all[0], {}),
              "in the foot wall of Cross Fault at 190 m (chance to meet it 0.40) or in its hanging wall at 220 m (0.10)");
    pierces[0].flags = {"beyond-extent"};
    EXPECT_TRUE(holds(ahead_words(veins_ahead(pierces)[0], {}), "at 220 m (0.10, outside the modelled ground)"));
    for (forecast::Pierce& pierce : pierces) pierce.chance_reached = 0.0;
    EXPECT_TRUE(holds(ahead_words(veins_ahead(pierces)[0], {}), "(chance that it is there 0.40)"));
    EXPECT_TRUE(holds(ahead_words(veins_ahead(pierces)[0], {}), "the hole ends before it"));
}

TEST(VeinAhead, NamesThePlannedEndAndTheDepthToAskFor) {
    CallAndStop rule;
    rule.call = 327.0;
    rule.stop = 445.0;
    EXPECT_EQ(call_and_stop_words(rule, {}), "call the geologist at 327 m; stop at 445 m");
    rule.past_end = 391.0;
    EXPECT_EQ(call_and_stop_words(rule, {}), "call the geologist at 327 m; planned end 391 m, ask for up to 445 m");
    rule.goes_on_to = "Sorrel";
    rule.stop = 339.0;
    rule.past_end.reset();
    EXPECT_EQ(call_and_stop_words(rule, {}), "call the geologist at 327 m; ask at 339 m if not met, else go on to Sorrel");
    rule.past_end = 330.0;
    EXPECT_EQ(rule.ask(), 330.0) << "its planned end comes first";
}

TEST(FlagWords, AreWhatAReaderSays) {
    EXPECT_EQ(flag_words("beyond-extent"), "outside the modelled ground");
    EXPECT_EQ(flag_words("lost-core"), "core lost");
    EXPECT_EQ(flag_words("doubtful-intercept, once"), "doubtful intercept, once");
}

std::string text_of(const std::vector<Paragraph>& all, const std::string& strong) {
    const auto one = std::find_if(all.begin(), all.end(), [&](const Paragraph& each) { return each.strong == strong; });
    return one == all.end() ? "" : one->text;
}

struct OneHole : ChangedResults {
    std::string hole;
    // The made-up pack with the forecasts of its first hole of that state alone.
    explicit OneHole(tables::HoleStatus status) {
        project.plan.clearance = 0.0;
        for (const forecast::Pierce& pierce : pierces)
            if (collar(pierce.hole).status == status && hole.empty()) hole = pierce.hole;
        pierces.erase(std::remove_if(pierces.begin(), pierces.end(), [&](const auto& one) { return one.hole != hole; }),
                      pierces.end());
    }
    paths::Path& path() {
        return *std::find_if(paths.begin(), paths.end(), [&](const paths::Path& one) { return one.hole == hole; });
    }
};

// That the hole may run past the vein bears on who goes to the rig.
TEST(HoleDecisions, SayOfAnActiveHoleThatItMayPassTheVeinBy) {
    OneHole made(tables::HoleStatus::active);
    ASSERT_FALSE(made.pierces.empty());
    forecast::Pierce& pierce = made.pierces.front();
    made.pierces.resize(1);
    made.path().drilled_depth = pierce.call_depth - 1.0;
    pierce.chance_reached = pierce.crossing.chance = 1.0;
    const auto words = [&] { return text_of(hole_decisions(made.results()), "Call"); };
    EXPECT_TRUE(holds(words(), "who goes to the rig")) << words();
    EXPECT_FALSE(holds(words(), "may pass it by")) << words();
    pierce.flags = {"nearest-vein"};
    EXPECT_TRUE(holds(words(), "may pass it by: who goes to the rig")) << words();
}

TEST(HoleDecisions, SayOneLineAHole) {
    const std::vector<Paragraph> all = hole_decisions(made_up_pack().results());
    std::set<std::string> links;
    for (const Paragraph& one : all) EXPECT_TRUE(links.insert(one.link).second) << one.strong << " " << one.text;
    EXPECT_FALSE(all.empty());
}

TEST(HoleDecisions, NameTheTargetsVeinFirstAndOfferMetresThatBuyAGain) {
    OneHole one(tables::HoleStatus::planned);
    forecast::Pierce& pierce = one.pierces.front();
    one.collar(one.hole).target->vein = pierce.vein;
    one.path().end_depth = pierce.stop_depth + 1.0;
    pierce.chance_reached = pierce.crossing.chance;
    const std::string enough = text_of(hole_decisions(one.results()), "Drill " + one.hole);
    EXPECT_TRUE(holds(enough, " for " + pierce.vein + " at ")) << enough;
    EXPECT_FALSE(holds(enough, "buys")) << enough;
    one.path().end_depth = pierce.depth;
    pierce.chance_reached = 0.5 * pierce.crossing.chance;
    const std::string longer = text_of(hole_decisions(one.results()), "Drill " + one.hole);
    EXPECT_TRUE(holds(longer, " more chance to meet " + pierce.vein)) << longer;
    pierce.chance_reached = 0.0;
    EXPECT_TRUE(holds(text_of(hole_decisions(one.results()), "Lengthen " + one.hole), "as planned it meets none"));
}

TEST(HoleDecisions, AskToSteerAnActiveHoleThatRunsOffItsTarget) {
    OneHole one(tables::HoleStatus::active);
    one.path().end_depth = one.pierces.front().stop_depth + 1.0;
    for (forecast::Pierce& pierce : one.pierces) pierce.chance_reached = pierce.crossing.chance;
    tables::Target& target = *one.collar(one.hole).target;
    target.vein = one.pierces.front().vein;
    target.radius = 15.0;
    target.point = one.pierces.front().point;
    EXPECT_EQ(text_of(hole_decisions(one.results()), "Steer " + one.hole), "");
    const Results results = one.results();
    const Eigen::Vector3d normal = results.veins[one.pierces.front().vein_number]
                                       .at(one.pierces.front().point, one.pierces.front().crossing.block_number)
                                       .normal;
    target.point = *target.point + 20.0 * normal.unitOrthogonal();
    EXPECT_EQ(text_of(hole_decisions(one.results()), "Steer " + one.hole),
              "steer, wedge or accept: 20 m off its target along " + target.vein + ", 15 m allowed");
}

TEST(HoleDecisions, AskToSteerAnActiveHoleThatComesTooNearToAnother) {
    OneHole one(tables::HoleStatus::active);
    one.project.plan.clearance = 1e5;
    EXPECT_TRUE(holds(text_of(hole_decisions(one.results()), "Steer " + one.hole), "steer, wedge or stop: "));
}

TEST(HoleDecisions, AskToMoveAPlannedHoleWithoutClearance) {
    OneHole one(tables::HoleStatus::planned);
    one.project.plan.clearance = 1e5;
    const std::vector<Paragraph> all = hole_decisions(one.results());
    EXPECT_TRUE(holds(text_of(all, "Move " + one.hole), "move or turn it: "));
    for (const CardFacts& facts : card_facts(one.results()))
        if (facts.collar->hole == one.hole) {
            EXPECT_TRUE(holds(text_of(all, "Move " + one.hole), too_near_words(facts.near, one.results().records.frame)))
                << "as its card says";
        }
    EXPECT_EQ(text_of(all, "Drill " + one.hole), "");
}

TEST(Decisions, CallAssaysOverdueAfterSixWeeks) {
    ChangedResults changed;
    intercepts::Intercept& hit = changed.intercepts.met.front();
    for (intercepts::Intercept& other : changed.intercepts.met) other.sampled = intercepts::SampledState::not_sampled;
    hit.sampled = intercepts::SampledState::pending;
    changed.records.assays.clear();
    changed.collar(hit.hole).date_finished = "2026-01-01";
    RunFacts run = made_up_pack().run;
    const auto asked = [&](const std::string& date) {
        run.date = date;
        return text_of(decisions(changed.results(), grade_classes(changed.results()), run), "Ask the lab");
    };
    EXPECT_EQ(asked("2026-02-12"), "");
    EXPECT_EQ(asked("2026-02-13"), "assays overdue: " + hit.hole + " (" + hit.vein + "), waited for 6 weeks");
    EXPECT_EQ(asked(""), "");
}

}  // namespace
}  // namespace selvage::sheets
