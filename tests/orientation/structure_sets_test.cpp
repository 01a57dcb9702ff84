#include "orientation/structure_sets.h"

#include "support/record_builders.h"

#include <gtest/gtest.h>

#include <cmath>

namespace selvage::orientation {
namespace {

Orientation plane(const std::string& kind, double dip, double dip_direction, int quality = 1) {
    Orientation row;
    row.hole = "K-01";
    row.kind = kind;
    row.depth = 50.0;
    row.quality = quality;
    row.pole = base::upward_normal({base::Angle::degrees(dip), base::Azimuth::degrees(dip_direction)});
    return row;
}

struct Core {
    std::vector<paths::Path> paths{
        test::straight_path("K-01", 0, Eigen::Vector3d::Zero(), {base::Azimuth::degrees(90.0), base::Dip::degrees(60.0)}, 100.0)};
    std::vector<Orientation> rows;
};

TEST(StructureSets, KindsAreKeptApartAndDoubtfulPolesLeftOut) {
    Core core;
    for (const double off : {-6.0, 0.0, 6.0}) {
        core.rows.push_back(plane("joint", 70.0, 100.0 + off));
        core.rows.push_back(plane("joint", 40.0 + off, 300.0));
        core.rows.push_back(plane("fault", 85.0, 20.0 + off));
    }
    core.rows.push_back(plane("joint", 70.0, 101.0));
    core.rows.push_back(plane("fault", 10.0, 200.0, 4));
    const std::vector<StructureSet> sets = structure_sets(core.rows, core.paths);
    ASSERT_EQ(sets.size(), 3u);
    EXPECT_EQ(sets[0].kind, "fault");
    EXPECT_EQ(sets[0].count, 3u);
    EXPECT_NEAR(sets[0].attitude.dip_direction.degrees(), 20.0, 2.0);
    EXPECT_EQ(sets[1].kind, "joint");
    EXPECT_EQ(sets[1].number, 1u);
    EXPECT_EQ(sets[1].count, 4u);
    EXPECT_NEAR(sets[1].attitude.dip.degrees(), 70.0, 2.0);
    EXPECT_EQ(sets[2].number, 2u);
    EXPECT_NEAR(sets[2].attitude.dip.degrees(), 40.0, 2.0);
    EXPECT_GT(sets[2].kappa, 10.0);
    EXPECT_LT(sets[2].cone95.degrees(), 30.0);
}

TEST(StructureSets, TwoPolesAreNoSet) {
    Core core;
    core.rows = {plane("joint", 70.0, 100.0), plane("joint", 71.0, 101.0)};
    EXPECT_TRUE(structure_sets(core.rows, core.paths).empty());
}

}  // namespace
}  // namespace selvage::orientation
