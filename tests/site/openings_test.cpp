#include "site/openings.h"

#include <gtest/gtest.h>

namespace selvage::site {
namespace {

tables::Collar channel_at(const std::string& hole, double elevation, tables::HoleType type = tables::HoleType::channel) {
    tables::Collar collar;
    collar.hole = hole;
    collar.type = type;
    collar.position = {5.0, 5.0, elevation};
    return collar;
}

const Ground level_ground{base::Plane{Eigen::Vector3d(0.0, 0.0, 100.0), Eigen::Vector3d::UnitZ()}};

TEST(Openings, AVoidThatPickLogAndDrillTellOfIsOne) {
    tables::Records records;
    records.collars = {channel_at("A-1", 100.0, tables::HoleType::core), channel_at("A-2", 100.0, tables::HoleType::core)};
    tables::Pick pick;
    pick.hole = "A-2";
    pick.from = 39.2;
    pick.to = 40.8;
    pick.state = tables::PickState::open_void;
    pick.comment = "no return";
    records.picks = {pick};
    tables::GeologyInterval rock;
    rock.hole = "A-2";
    rock.from = 39.1;
    rock.to = 40.9;
    rock.rock = "Old stope";
    records.geology = {rock};
    tables::DrillingEvent dropped, bit;
    dropped.hole = bit.hole = "A-2";
    dropped.kind = "void";
    dropped.depth = 41.5;
    dropped.to = 42.0;
    bit.kind = "bit change";
    bit.depth = 60.0;
    records.drilling = {dropped, bit};
    const Openings openings = known_openings(records, level_ground);
    ASSERT_EQ(openings.voids.size(), 1u);
    EXPECT_EQ(openings.voids[0].hole, "A-2");
    EXPECT_DOUBLE_EQ(openings.voids[0].from, 39.1);
    EXPECT_DOUBLE_EQ(openings.voids[0].to, 42.0);
    EXPECT_EQ(openings.voids[0].note, "no return");
    records.drilling[0].depth = 50.0;
    records.drilling[0].to = 51.0;
    EXPECT_EQ(known_openings(records, level_ground).voids.size(), 2u);
}

TEST(Openings, AChannelFarBelowTheGroundWasSampledInAWorking) {
    tables::Records records;
    records.collars = {channel_at("C-1", 35.0), channel_at("C-2", 97.0), channel_at("F-1", 60.0, tables::HoleType::face),
                       channel_at("A-1", 35.0, tables::HoleType::core)};
    const Openings openings = known_openings(records, level_ground);
    ASSERT_EQ(openings.sampled.size(), 2u);
    EXPECT_EQ(openings.sampled[0].hole, "C-1");
    EXPECT_DOUBLE_EQ(openings.sampled[0].depth, 65.0);
    EXPECT_EQ(openings.sampled[1].hole, "F-1");
    EXPECT_TRUE(known_openings(records, Ground()).empty());
    EXPECT_TRUE(known_openings(tables::Records(), level_ground).empty());
}

}  // namespace
}  // namespace selvage::site
