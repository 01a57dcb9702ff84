#include "site/ground.h"

#include "support/record_builders.h"

#include <gtest/gtest.h>

namespace selvage::site {
namespace {

TEST(Ground, IsThePlaneThroughCollarsAndOutcrops) {
    tables::Records records;
    for (int i = 0; i < 25; ++i) {
        const double east = 60.0 * (i % 5), north = 60.0 * (i / 5);
        records.collars.push_back(test::collar("H", {east, north, 100.0 + 0.1 * east - 0.05 * north}, 200.0));
    }
    const auto ground = ground_plane(records);
    ASSERT_TRUE(ground);
    EXPECT_NEAR(-ground->normal.x() / ground->normal.z(), 0.1, 0.002);
    EXPECT_NEAR(-ground->normal.y() / ground->normal.z(), -0.05, 0.002);
    EXPECT_GT(ground->normal.z(), 0.0);
}

TEST(Ground, CollarsInOneLineMakeNoCliff) {
    tables::Records records;
    for (int i = 0; i < 4; ++i) records.collars.push_back(test::collar("H", {30.0 * i, 0.01 * (i % 2), 100.0 + (i % 2)}, 200.0));
    EXPECT_LT(std::abs(ground_plane(records)->normal.y()), 0.01);
}

TEST(Ground, ChannelsAndDaughtersDoNotTellIt) {
    tables::Records records;
    records.collars.push_back(test::collar("adit", {0.0, 0.0, 50.0}, 2.0));
    records.collars.back().type = tables::HoleType::channel;
    EXPECT_FALSE(ground_plane(records));
    records.collars.push_back(test::collar("H", {0.0, 0.0, 100.0}, 200.0));
    EXPECT_EQ(ground_plane(records)->point.z(), 100.0);
}

}  // namespace
}  // namespace selvage::site
