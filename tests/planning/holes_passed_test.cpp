#include "planning/holes_passed.h"

#include "planning/straight_hole.h"

#include <gtest/gtest.h>

namespace selvage::planning {
namespace {

Reach down_from(const Eigen::Vector3d& collar, double length) {
    Reach reach;
    reach.collar = collar;
    reach.direction = {base::Azimuth::degrees(0.0), base::Dip::degrees(90.0)};
    reach.length = length;
    return reach;
}

// A hole of dip 45 from 100 m to the west crosses the vertical one 100 m down, 2 m to the north of it (worked out by hand).
TEST(HolesPassed, TellsHowNearAndHowFarDown) {
    const std::vector<paths::Path> paths{straight("CROSS", 90.0, 300.0, {-100.0, 2.0, 0.0}),
                                         straight("FAR", 0.0, 300.0, {0.0, 50.0, 0.0}, 90.0)};
    const std::vector<NearHole> passed = holes_passed(down_from({0.0, 0.0, 0.0}, 200.0), 5.0, paths).under;
    ASSERT_EQ(passed.size(), 1u);
    EXPECT_EQ(passed[0].hole, "CROSS");
    EXPECT_NEAR(passed[0].distance, 2.0, 0.05);
    EXPECT_NEAR(passed[0].depth, 100.0, 1.5);
    EXPECT_TRUE(holes_passed(down_from({0.0, 0.0, 0.0}, 80.0), 5.0, paths).under.empty());
}

// Two holes of one pad that part from their collars on pass nowhere.
TEST(HolesPassed, LeavesOutWhatOnlyStartsBeside) {
    const std::vector<paths::Path> fan{straight("FAN", 90.0, 200.0, {1.0, 0.0, 0.0}, 60.0)};
    const NearHoles near = holes_passed(down_from({0.0, 0.0, 0.0}, 200.0), 5.0, fan);
    EXPECT_TRUE(near.under.empty());
    ASSERT_EQ(near.beside.size(), 1u);
    EXPECT_EQ(near.beside[0].hole, "FAN");
}

}  // namespace
}  // namespace selvage::planning
