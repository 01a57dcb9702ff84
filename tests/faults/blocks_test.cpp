#include "faults/blocks.h"
#include "faults/made_fault.h"

#include "base/random.h"
#include "support/record_builders.h"

#include <gtest/gtest.h>

namespace selvage::faults {
namespace {

Blocks two_faults() {
    return Blocks({made_fault("Old", {0, 0, 0}, {1, 0.2, 0.3}, {3, 40, -20}),
                   made_fault("Young", {10, 5, 0}, {-0.3, 1, 0.5}, {25, -4, 12})});
}

TEST(Blocks, WithoutAFaultNothingMoves) {
    const Blocks blocks;
    EXPECT_EQ(blocks.count(), 1u);
    EXPECT_FALSE(blocks.is_cut());
    EXPECT_EQ(blocks.name(0), "");
    EXPECT_EQ(blocks.at({1, 2, 3}), 0u);
    EXPECT_EQ(blocks.shift(0), Eigen::Vector3d(0, 0, 0));
}

// What is moved by the older fault, then by the younger one, is found back where it was, in the block that its way says.
TEST(Blocks, TakeBackWhatTheFaultsMoved) {
    const Blocks blocks = two_faults();
    const Fault &old = blocks.faults()[0], &young = blocks.faults()[1];
    // The older plane before the younger fault moved half of it: its stated point lies on the younger one's foot-wall side.
    ASSERT_LT(base::signed_distance(young.plane, old.plane.point), 0.0);
    base::RandomStream stream("points", {1});
    for (int i = 0; i < 1000; ++i) {
        const Eigen::Vector3d before = 100.0 * Eigen::Vector3d(stream.normal(), stream.normal(), stream.normal());
        Eigen::Vector3d today = before;
        std::string name = "Old-";
        if (base::signed_distance(old.plane, today) >= 0.0) {
            today += old.slip;
            name = "Old+";
        }
        if (base::signed_distance(young.plane, today) >= 0.0) {
            today += young.slip;
            name += " Young+";
        } else {
            name += " Young-";
        }
        const std::size_t block = blocks.at(today);
        EXPECT_EQ(blocks.name(block), name);
        EXPECT_LT((today - blocks.shift(block) - before).norm(), 1e-9);
        EXPECT_GE(blocks.inside(block, today).distance, 0.0);
        for (std::size_t other = 0; other < blocks.count(); ++other)
            EXPECT_TRUE(other == block || blocks.inside(other, today).distance <= 0.0);
        for (const base::Plane& bound : blocks.bounds(block)) EXPECT_LE(base::signed_distance(bound, today), 1e-9);
    }
}

TEST(Blocks, PartAPathWhereFaultsCutIt) {
    const Blocks blocks = two_faults();
    const paths::Path path =
        test::straight_path("K-01", 0, {-60, -70, 50}, {base::Azimuth::degrees(40), base::Dip::degrees(20)}, 200.0);
    const auto stretches = blocks.stretches(path, 0.0, 200.0);
    ASSERT_GE(stretches.size(), 3u);
    EXPECT_EQ(stretches.front().from, 0.0);
    EXPECT_EQ(stretches.back().to, 200.0);
    for (std::size_t i = 0; i < stretches.size(); ++i) {
        const double middle = (stretches[i].from + stretches[i].to) / 2.0;
        EXPECT_EQ(blocks.at(paths::position_at(path, middle)), stretches[i].block);
        if (i == 0) continue;
        EXPECT_EQ(stretches[i].from, stretches[i - 1].to);
        EXPECT_NE(stretches[i].block, stretches[i - 1].block);
        EXPECT_LT(std::abs(blocks.inside(stretches[i].block, paths::position_at(path, stretches[i].from)).distance), 1e-5);
    }
}

// What lies beyond all that is asked about parts nothing, and is in no name; what it moved is still taken back.
TEST(Blocks, AFaultThatStaysAwayFromTheGroundPartsNothing) {
    const std::vector<Fault> faults{made_fault("Near", {0, 0, 0}, {1, 0, 0}, {0, 5, 0}),
                                    made_fault("Far", {500, 0, 0}, {1, 0, 0}, {0, 0, 9})};
    const Eigen::AlignedBox3d ground(Eigen::Vector3d(-100, -100, -100), Eigen::Vector3d(100, 100, 100));
    const Blocks both(faults, ground), far({faults[1]}, ground);
    ASSERT_EQ(both.count(), 2u);
    EXPECT_EQ(both.name(0), "Near-");
    EXPECT_EQ(both.name(1), "Near+");
    EXPECT_EQ(both.bounds(1).size(), 1u);
    EXPECT_FALSE(far.is_cut());
    EXPECT_EQ(far.name(0), "");
    EXPECT_TRUE(std::isinf(far.inside(0, {0, 0, 0}).distance));
}

// Twelve faults side by side leave thirteen blocks, not 4,096.
TEST(Blocks, ParallelFaultsLeaveOneBlockMoreThanThereAreFaults) {
    std::vector<Fault> faults;
    for (int i = 0; i < 12; ++i) faults.push_back(made_fault("F" + std::to_string(i), {20.0 * i, 0, 0}, {1, 0, 0}, {0, 1, 0}));
    EXPECT_EQ(Blocks(faults).count(), 13u);
}

// Two faults a metre apart part a path in three, not in two.
TEST(Blocks, TellParallelFaultsOneMetreApart) {
    const Blocks blocks({made_fault("A", {0, 0, 0}, {1, 0, 0}, {0, 5, 0}), made_fault("B", {1, 0, 0}, {1, 0, 0}, {0, 0, 9})});
    const paths::Path path =
        test::straight_path("K-01", 0, {-50.3, 0, 0}, {base::Azimuth::degrees(90), base::Dip::degrees(0)}, 100.0);
    const auto stretches = blocks.stretches(path, 0.0, 100.0);
    ASSERT_EQ(stretches.size(), 3u);
    EXPECT_NEAR(stretches[1].to - stretches[1].from, 1.0, 1e-5);
    EXPECT_EQ(blocks.name(stretches[1].block), "A+ B-");
}

}  // namespace
}  // namespace selvage::faults
