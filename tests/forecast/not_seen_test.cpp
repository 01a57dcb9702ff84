#include "forecast/not_seen.h"

#include <gtest/gtest.h>

namespace selvage::forecast {
namespace {

Pierce pierce_between(double from, double to, double presence) {
    Pierce pierce;
    pierce.hole = "K-01";
    pierce.vein = "North";
    pierce.crossing.depth = {from, to};
    pierce.crossing.cumulative = {0.0, 1.0};
    pierce.presence = presence;
    pierce.stop_depth = to + 15.0;
    return pierce;
}

// By hand: at half the range, with presence 0.8, 0.8 x 0.5 / (1 - 0.8 x 0.5) = 2/3.
TEST(NotSeenYet, FallsFromThePresenceToNothing) {
    const Pierce pierce = pierce_between(200.0, 220.0, 0.8);
    EXPECT_DOUBLE_EQ(chance_ahead({&pierce}, 150.0), 0.8);
    EXPECT_NEAR(chance_ahead({&pierce}, 210.0), 2.0 / 3.0, 1e-12);
    EXPECT_DOUBLE_EQ(chance_ahead({&pierce}, 230.0), 0.0);
    const Pierce sure = pierce_between(200.0, 220.0, 1.0);
    EXPECT_DOUBLE_EQ(chance_ahead({&sure}, 219.0), 1.0);  // it must come
    EXPECT_DOUBLE_EQ(chance_ahead({&sure}, 230.0), 0.0);  // and did not: a number all the same
}

TEST(NotSeenYet, AnActiveHoleHasARowAMetreFromWhereItStandsToItsStop) {
    std::vector<paths::Path> paths(1);
    paths[0].hole = "K-01";
    paths[0].drilled_depth = 205.4;
    paths[0].status = tables::HoleStatus::planned;
    const std::vector<Pierce> pierces{pierce_between(200.0, 220.0, 0.8)};
    EXPECT_TRUE(not_seen_yet(pierces, paths, 1.0).empty());
    paths[0].status = tables::HoleStatus::active;
    const std::vector<NotSeen> rows = not_seen_yet(pierces, paths, 1.0);
    ASSERT_EQ(rows.size(), 31u);  // 205.4, 206 ... 234, 235
    EXPECT_DOUBLE_EQ(rows.front().depth, 205.4);
    EXPECT_DOUBLE_EQ(rows[1].depth, 206.0);
    EXPECT_DOUBLE_EQ(rows.back().depth, 235.0);
    for (std::size_t i = 1; i < rows.size(); ++i) EXPECT_LE(rows[i].chance_ahead, rows[i - 1].chance_ahead);
}

// Two blocks of a vein that may each be crossed are one question: what is used up of both.
TEST(NotSeen, PiecesOfOneVeinAreCountedTogether) {
    Pierce upper = pierce_between(200.0, 220.0, 0.9), lower = pierce_between(300.0, 320.0, 0.9);
    for (double& chance : upper.crossing.cumulative) chance *= 0.5;
    for (double& chance : lower.crossing.cumulative) chance *= 0.3;
    upper.crossing.chance = 0.5;
    lower.crossing.chance = 0.3;
    const double there = 0.8 * 0.9, used_up = 0.5 / 0.8;
    EXPECT_NEAR(chance_ahead({&upper, &lower}, 100.0), there, 1e-12);
    EXPECT_NEAR(chance_ahead({&upper, &lower}, 250.0), there * (1.0 - used_up) / (1.0 - there * used_up), 1e-12);
    EXPECT_NEAR(chance_ahead({&upper, &lower}, 330.0), 0.0, 1e-12);
}

}  // namespace
}  // namespace selvage::forecast
