#include "planning/reach.h"

#include "planning/holes_passed.h"
#include "planning/straight_hole.h"
#include "support/map_files.h"
#include "support/reliefs.h"

#include <gtest/gtest.h>

#include <cmath>

namespace selvage::planning {
namespace {

tables::Pad pad_at(const std::string& name, const Eigen::Vector3d& position) {
    tables::Pad pad;
    pad.pad = name;
    pad.position = position;
    return pad;
}

// A vein that strikes north and dips 70 degrees to the west; a place 150 m down; level ground at 0.
struct Ground {
    Eigen::Vector3d place{0.0, 0.0, -150.0};
    Eigen::Vector3d normal = base::upward_normal({base::Angle::degrees(70.0), base::Azimuth::degrees(270.0)});
    std::vector<tables::Pad> pads;
    ReachRules rules;
    Ground() {
        rules.angle_min = base::Angle::degrees(30.0);
        rules.pads = &pads;
        rules.ground = base::Plane{};
    }
    std::optional<Reach> reach() const { return best_reach(place, normal, rules); }
};

// From 150 m to the west of it and 150 m above: azimuth 090, dip 45, 212.1 m; the angle with the vein 45 + 20 degrees (the normal
// rises to the west at 20).
TEST(Reach, FromAPadRunsStraightToThePlace) {
    Ground ground;
    ground.pads = {pad_at("P1", {-150.0, 0.0, 0.0})};
    const auto reach = ground.reach();
    ASSERT_TRUE(reach);
    EXPECT_EQ(reach->pad, "P1");
    EXPECT_NEAR(reach->direction.azimuth.degrees(), 90.0, 1e-9);
    EXPECT_NEAR(reach->direction.dip.degrees(), 45.0, 1e-9);
    EXPECT_NEAR(reach->depth, 150.0 * std::sqrt(2.0), 1e-9);
    EXPECT_NEAR(reach->length, reach->depth + 15.0, 1e-9);
    EXPECT_NEAR(reach->angle.degrees(), 65.0, 1e-9);
    EXPECT_NEAR(reach->cost, reach->length, 1e-9);
}

TEST(Reach, APadThatWouldNeedAFlatHoleOrAnotherAzimuthDoesNotServe) {
    Ground ground;
    ground.pads = {pad_at("far", {-400.0, 0.0, 0.0})};  // dip 20.6, under the rig's 45
    EXPECT_EQ(ground.reach()->pad, "");
    ground.pads = {pad_at("P1", {-150.0, 0.0, 0.0})};
    ground.pads[0].azimuth_min = base::Azimuth::degrees(300.0);
    ground.pads[0].azimuth_max = base::Azimuth::degrees(60.0);
    EXPECT_EQ(ground.reach()->pad, "");
    ground.pads[0].azimuth_max = base::Azimuth::degrees(95.0);
    EXPECT_EQ(ground.reach()->pad, "P1");
    ground.pads[0].length_max = 200.0;
    EXPECT_EQ(ground.reach()->pad, "");
}

TEST(Reach, SaysWhyTheNearestPadDoesNotServe) {
    Ground ground;
    const auto why = [&ground] { return why_no_pad(ground.place, ground.normal, ground.rules); };
    EXPECT_EQ(why(), "");
    ground.pads = {pad_at("P1", {-150.0, 0.0, 0.0}), pad_at("far", {-400.0, 0.0, 0.0})};
    EXPECT_EQ(why(), "");
    ground.pads[0].length_max = 200.0;
    EXPECT_EQ(why(), "P1, the nearest: too far for the rig");
    ground.pads = {pad_at("far", {-400.0, 0.0, 0.0})};
    EXPECT_EQ(why(), "far, the nearest: a hole would be too flat, at 21°");  // atan(150 / 400) = 20.6 degrees
    ground.pads = {pad_at("low", {-150.0, 0.0, -170.0})};
    EXPECT_EQ(why(), "low, the nearest: lies lower than the place");
    ground.pads = {pad_at("P1", {-150.0, 0.0, 0.0})};
    ground.rules.angle_min = base::Angle::degrees(66.0);
    EXPECT_EQ(why(), "P1, the nearest: would meet the vein at 65° only");
    ground.pads[0].azimuth_min = base::Azimuth::degrees(100.0);
    ground.pads[0].azimuth_max = base::Azimuth::degrees(200.0);
    EXPECT_EQ(why(), "P1, the nearest: the azimuth is not the pad's");
}

TEST(Reach, FromTheGroundKeepsTheRigsDipsAndMeetsTheVein) {
    Ground ground;
    const auto reach = ground.reach();
    ASSERT_TRUE(reach);
    EXPECT_GE(reach->direction.dip.degrees(), 45.0 - 1e-9);
    EXPECT_LE(reach->direction.dip.degrees(), 90.0 + 1e-9);
    EXPECT_NEAR(reach->collar.z(), 0.0, 1e-9);
    EXPECT_LT(reach->collar.x(), 0.0);  // from the hanging wall, where the angle is better
    const Eigen::Vector3d end = reach->collar + reach->depth * base::unit_vector(reach->direction);
    EXPECT_NEAR((end - ground.place).norm(), 0.0, 1e-9);
}

TEST(Reach, NothingWhereTheAngleOrTheLengthForbidsIt) {
    Ground ground;
    ground.rules.angle_min = base::Angle::degrees(80.0);
    EXPECT_FALSE(ground.reach());
    ground.rules.angle_min = base::Angle::degrees(30.0);
    ground.rules.rig.length_max = 100.0;
    EXPECT_FALSE(ground.reach());
    ground.rules.rig.length_max = 800.0;
    ground.rules.ground = {};
    EXPECT_FALSE(ground.reach());
}

// A bench 40 m high to the west: the hole from there starts on it, not on the plane.
TEST(Reach, StartsOnTheGroundAsMeasured) {
    Ground ground;
    ground.rules.ground = site::Ground(base::Plane{}, test::grid_relief(-400.0, -400.0, 400, 400, 2.0, [](double east, double) {
                                           return east < -20.0 ? 40.0 : 0.0;
                                       }));
    const auto reach = ground.reach();
    ASSERT_TRUE(reach);
    EXPECT_NEAR(reach->collar.z(), reach->collar.x() < -20.0 ? 40.0 : 0.0, 0.05);
    EXPECT_LT(reach->collar.x(), -20.0);
}

TEST(Reach, KeepsWithinTheProperty) {
    Ground ground;
    const auto free = ground.reach();
    ASSERT_TRUE(free);
    ASSERT_LT(free->collar.x(), -30.0);
    site::Property property({{test::box_ring(-30.0, -500.0, 500.0, 500.0)}});
    ground.rules.property = &property;
    const auto kept = ground.reach();
    EXPECT_TRUE(!kept || kept->collar.x() >= -31.0);
    ground.pads = {pad_at("P1", {-150.0, 0.0, 0.0})};  // outside, as somebody may have leave to drill from
    ASSERT_TRUE(ground.reach());
    EXPECT_EQ(ground.reach()->pad, "P1");
    property = site::Property({{test::box_ring(5000.0, 5000.0, 5100.0, 5100.0)}});
    EXPECT_FALSE(ground.reach());
}

TEST(Reach, KeepsClearOfOldWorkings) {
    Ground ground;
    ground.rules.clearance = 5.0;
    ground.pads = {pad_at("P1", {-150.0, 0.0, 0.0})};
    ASSERT_EQ(ground.reach()->pad, "P1");
    const std::vector<site::Ring> drift = {test::box_ring(-80.0, -20.0, -70.0, 20.0)};
    const site::Workings workings = {
        {"drift", drift, site::prism(drift, -80.0, -77.0)}};  // the hole is at -75 there, 2 m over it
    ground.rules.workings = &workings;
    const auto reach = ground.reach();
    ASSERT_TRUE(reach);
    EXPECT_EQ(reach->pad, "");
    const Eigen::Vector3d end = reach->collar + reach->length * base::unit_vector(reach->direction);
    EXPECT_TRUE(site::near_workings(workings, {reach->collar, end}, 5.0).empty());
    const site::Workings unknown = {{"drift", drift, nullptr}};
    ground.rules.workings = &unknown;
    EXPECT_EQ(ground.reach()->pad, "P1");
}

// From the pad the hole would cross, 15 m down, the line of one that starts 4 m beside it; and, further down, one from elsewhere.
TEST(Reach, IsNotOfferedWhereItsHoleWouldPassAnotherTooNear) {
    Ground ground;
    ground.rules.clearance = 5.0;
    ground.pads = {pad_at("P1", {-150.0, 0.0, 0.0})};
    const Reach free = *ground.reach();
    ASSERT_EQ(free.pad, "P1");
    const auto with = [&](const paths::Path& other) {
        const std::vector<paths::Path> paths{other};
        const std::vector<HolePoints> holes = hole_points(paths);
        ground.rules.holes = &holes;
        const auto reach = ground.reach();
        const std::string why = why_no_pad(ground.place, ground.normal, ground.rules);
        EXPECT_TRUE(!reach || holes_passed(*reach, 5.0, paths).under.empty());
        EXPECT_EQ(!reach || reach->pad != "P1", (why.find("too near another hole") != std::string::npos)) << why;
        ground.rules.holes = nullptr;
        return reach ? reach->pad : "none";
    };
    EXPECT_EQ(with(straight("Parts", 85.0, 200.0, {-150.0, 4.0, 0.0})), "P1");
    EXPECT_NE(with(straight("Meets", 107.0, 200.0, {-150.0, 4.0, 0.0})), "P1");
    EXPECT_NE(with(straight("UpperHalf", 0.0, 200.0, {-100.0, -50.0, 0.0}, 45.0)), "P1");
    EXPECT_EQ(with(straight("Away", 0.0, 200.0, {-100.0, -20.0, 0.0}, 45.0)), "P1");
}

}  // namespace
}  // namespace selvage::planning
