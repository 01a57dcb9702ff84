#include "planning/step_outs.h"

#include "planning/holes_passed.h"

#include "veins/vein_scene.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

namespace selvage::planning {
namespace {

struct Project {
    veins::Scene scene;
    std::vector<veins::Vein> all;
    StepOutSettings settings;
    Project() {
        scene.lattice(3, 3);
        all = scene.model();
        settings.plan.count = 6;
    }
    std::vector<StepOut> plan(const std::vector<forecast::Pierce>& pierces = {}) const {
        return step_outs(all, scene.intercepts, pierces, scene.paths, scene.records, site::assumed_site(scene.records), settings);
    }
};

TEST(StepOuts, AreApartFromEachOtherAndFromTheHits) {
    const Project project;
    const std::vector<StepOut> ranks = project.plan();
    ASSERT_EQ(ranks.size(), 6u);
    const double apart = project.all[0].summary().hole_spacing / 2.0;
    for (std::size_t i = 0; i < ranks.size(); ++i) {
        EXPECT_EQ(ranks[i].rank, i + 1);
        EXPECT_GE(ranks[i].hole.direction.dip.degrees(), 45.0 - 1e-9);
        EXPECT_LE(ranks[i].hole.direction.dip.degrees(), 90.0 + 1e-9);
        EXPECT_GT(ranks[i].presence, 0.0);
        EXPECT_FALSE(ranks[i].reason.empty());
        EXPECT_TRUE(project.all[0].at(ranks[i].point).within_extent);
        for (std::size_t j = 0; j < i; ++j) {
            EXPECT_GE((ranks[i].point - ranks[j].point).norm(), apart);
            EXPECT_NE(ranks[i].target, ranks[j].target);
        }
        for (const intercepts::Intercept& met : project.scene.intercepts.met)
            EXPECT_GE((ranks[i].point - met.point).norm(), 0.9 * apart);
    }
}

// The score is the sum that the settings tell, over shares of the best left; the first rank has the largest of all.
TEST(StepOuts, TellTheSharesByWhichTheyAreRanked) {
    Project project;
    project.settings.plan.weights = {1.0, 0.5, 0.25};
    const std::vector<StepOut> ranks = project.plan();
    ASSERT_GT(ranks.size(), 2u);
    for (const StepOut& rank : ranks) {
        for (const double share : {rank.teaches, rank.worth, rank.costs, rank.off_variance}) {
            EXPECT_GE(share, 0.0);
            EXPECT_LE(share, 1.0 + 1e-12);
        }
        EXPECT_NEAR(rank.score, rank.teaches + 0.5 * rank.worth - 0.25 * rank.costs, 1e-12);
        EXPECT_EQ(rank.reason.find("most"), std::string::npos) << rank.reason;
    }
    project.settings.plan.weights = {1.0, 0.0, 0.0};
    for (const StepOut& rank : project.plan()) EXPECT_NEAR(rank.teaches, 1.0, 1e-12);
}

TEST(StepOuts, StartOnTheGroundAndRunStraightThroughTheirPierce) {
    const Project project;
    const site::Site site = site::assumed_site(project.scene.records);
    for (const StepOut& rank : project.plan()) {
        const Eigen::Vector3d down = base::unit_vector(rank.hole.direction);
        EXPECT_LT((rank.hole.collar + rank.hole.depth * down - rank.point).norm(), 1e-6);
        EXPECT_NEAR(rank.hole.length, rank.hole.depth + project.settings.plan.tail, 1e-9);
        ASSERT_TRUE(rank.hole.pad.empty());
        const auto above = site.ground.distance_along(rank.point, -down, 1000.0);
        ASSERT_TRUE(above.has_value());
        EXPECT_NEAR(*above, rank.hole.depth, 0.05);
    }
}

// What a hole teaches falls when others near it are drilled: the ranks' information falls, and a planned hole's place is left
// out.
TEST(StepOuts, LookAtWhatIsPlannedAsThoughItWereDrilled) {
    const Project project;
    const std::vector<StepOut> free_choice = project.plan();
    forecast::Pierce planned;
    planned.vein_number = 0;
    planned.point = free_choice.front().point;
    const std::vector<StepOut> after = project.plan({planned});
    for (const StepOut& rank : after) EXPECT_GE((rank.point - planned.point).norm(), project.all[0].summary().hole_spacing / 2.0);
    EXPECT_LT(after.front().information, free_choice.front().information);
}

TEST(StepOuts, ALastingTargetTakesItsNameFromItsPlace) {
    const Project project;
    const std::vector<StepOut> once = project.plan(), again = project.plan();
    ASSERT_EQ(once.size(), again.size());
    for (std::size_t i = 0; i < once.size(); ++i) EXPECT_EQ(once[i].target, again[i].target);
    EXPECT_EQ(once.front().target.substr(0, 6), "North ");
}

// By the rule of the cards: none of the proposed holes would be told to be moved.
TEST(StepOuts, KeepClearOfOtherHoles) {
    Project project;
    constexpr double clearance = 25.0;
    const auto too_near = [&] {
        std::size_t count = 0;
        for (const StepOut& rank : project.plan()) count += holes_passed(rank.hole, clearance, project.scene.paths).under.size();
        return count;
    };
    project.settings.plan.clearance = 0.0;
    EXPECT_GT(too_near(), 0u);
    project.settings.plan.clearance = clearance;
    ASSERT_FALSE(project.plan().empty());
    EXPECT_EQ(too_near(), 0u);
}

TEST(StepOuts, WeightsTurnTheChoice) {
    Project project;
    project.settings.plan.weights = {0.0, 0.0, 1.0};
    const std::vector<StepOut> cheap = project.plan();
    project.settings.plan.weights = {1.0, 0.0, 0.0};
    const std::vector<StepOut> teaching = project.plan();
    ASSERT_FALSE(cheap.empty());
    ASSERT_FALSE(teaching.empty());
    EXPECT_LT(cheap.front().hole.cost, teaching.front().hole.cost);
    EXPECT_GT(teaching.front().information, cheap.front().information);
}

TEST(StepOuts, NoneWhereNoHoleReaches) {
    Project project;
    project.settings.rig.length_max = 5.0;
    EXPECT_TRUE(project.plan().empty());
}

}  // namespace
}  // namespace selvage::planning
