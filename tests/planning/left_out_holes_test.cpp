#include "planning/left_out_holes.h"

#include "planning/straight_hole.h"

#include <gtest/gtest.h>

namespace selvage::planning {
namespace {

tables::Collar row_of(const Eigen::Vector3d& position) {
    tables::Collar row;
    row.hole = "LOST";
    row.position = position;
    row.depth = 200.0;
    return row;
}

// Two rows of one name, 14 m apart: 4 m off the start of the hole, and further.
TEST(LeftOutHoles, AreToldByTheNearestOfTheirPlaces) {
    const paths::Path path = straight("P", 90.0, 200.0);
    tables::Records records;
    records.left_out = {row_of({-18.0, 0.0, 0.0}), row_of({-4.0, 0.0, 0.0})};
    const std::vector<NearHole> near = near_left_out(path, 0.0, 200.0, 5.0, records, {path});
    ASSERT_EQ(near.size(), 1u);
    EXPECT_EQ(near[0].hole, "LOST");
    EXPECT_NEAR(near[0].distance, 4.0, 1e-9);
    EXPECT_DOUBLE_EQ(near[0].depth, 0.0);
    EXPECT_TRUE(near_left_out(path, 50.0, 200.0, 5.0, records, {path}).empty()) << "drilled past it";
    records.left_out = {row_of({-18.0, 0.0, 0.0})};
    EXPECT_TRUE(near_left_out(path, 0.0, 200.0, 5.0, records, {path}).empty());
    records.left_out = {row_of({-4.0, 0.0, 0.0})};
    records.left_out[0].status = tables::HoleStatus::cancelled;
    EXPECT_TRUE(near_left_out(path, 0.0, 200.0, 5.0, records, {path}).empty());
}

// Straight down from a collar 100 m to the east it crosses the hole's line 100 m down, 8 m beside it: within 5 m and the
// twentieth of 100 m by which it may have deviated. Without a direction only its collar is known.
TEST(LeftOutHoles, RunStraightFromTheirCollarsWhereTheirRowsSayHow) {
    const paths::Path path = straight("P", 90.0, 200.0);
    tables::Records records;
    records.left_out = {row_of({100.0, 8.0, 0.0})};
    EXPECT_TRUE(near_left_out(path, 0.0, 200.0, 5.0, records, {path}).empty());
    records.left_out[0].azimuth = base::Azimuth::degrees(0.0);
    records.left_out[0].dip = base::Dip::degrees(90.0);
    const std::vector<NearHole> near = near_left_out(path, 0.0, 200.0, 5.0, records, {path});
    ASSERT_EQ(near.size(), 1u);
    EXPECT_NEAR(near[0].distance, 8.0, 0.1);
    EXPECT_NEAR(near[0].depth, 141.0, 1.5);
    records.left_out[0].position.y() = 12.0;
    EXPECT_TRUE(near_left_out(path, 0.0, 200.0, 5.0, records, {path}).empty());
}

// A collar that can be used but has no path is no better known.
TEST(LeftOutHoles, AreCollarsWithoutAPathToo) {
    const paths::Path path = straight("P", 90.0, 200.0);
    tables::Records records;
    records.collars = {row_of({-4.0, 0.0, 0.0})};
    EXPECT_EQ(near_left_out(path, 0.0, 200.0, 5.0, records, {path}).size(), 1u);
    EXPECT_TRUE(near_left_out(path, 0.0, 200.0, 5.0, records, {path, straight("LOST", 0.0, 10.0, {-500.0, 0.0, 0.0})}).empty());
}

}  // namespace
}  // namespace selvage::planning
