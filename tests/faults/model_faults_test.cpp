#include "faults/fault.h"

#include "support/record_builders.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

namespace selvage::faults {
namespace {

using base::Angle;
using base::Azimuth;

struct Ground {
    std::vector<settings::FaultSetting> settings{1};
    std::vector<std::string> order{"North", "Cross Fault"}, veins{"North"};
    tables::Records records;
    std::vector<paths::Path> paths;
    std::vector<orientation::Orientation> orientations;

    Ground() {
        records.frame.origin = {1000.0, 2000.0, 0.0};
        settings[0].name = "Cross Fault";
        settings[0].point = Eigen::Vector3d(1010.0, 2020.0, -30.0);
        settings[0].dip = Angle::degrees(60);
        settings[0].dip_direction = Azimuth::degrees(90);
    }
    base::Checked<Events> model() const { return model_faults(settings, order, veins, records, paths, orientations); }
    Fault only() const { return model().value.faults.at(0); }
    std::vector<std::string> found() const {
        std::vector<std::string> ids;
        for (const base::Finding& finding : model().findings) ids.emplace_back(finding.check->id);
        return ids;
    }
    // A hole straight down that meets the fault at a depth.
    void pick(const std::string& hole, const Eigen::Vector3d& collar, double depth) {
        paths.push_back(test::straight_path(hole, paths.size(), collar, {Azimuth::degrees(0), base::Dip::degrees(90)}, 400.0));
        tables::Pick row;
        row.hole = hole;
        row.vein = "Cross Fault";
        row.from = depth - 0.5;
        row.to = depth + 0.5;
        records.picks.push_back(row);
    }
};

// How the hanging-wall side moves, by the meaning of the words: a fault that dips 60 degrees to the east.
TEST(ModelFaults, TurnStrikeAndDipSlipIntoAVector) {
    Ground ground;
    ground.settings[0].dip_slip = 10.0;  // normal: the hanging wall goes down, to the east
    EXPECT_LT((ground.only().slip - Eigen::Vector3d(5.0, 0.0, -10.0 * std::sqrt(0.75))).norm(), 1e-9);
    ground.settings[0].dip_slip.reset();
    ground.settings[0].strike_slip = 7.0;  // right-lateral: who looks east sees the far side move to the south
    EXPECT_LT((ground.only().slip - Eigen::Vector3d(0.0, -7.0, 0.0)).norm(), 1e-9);
    EXPECT_DOUBLE_EQ(ground.only().slip_sd, 0.7);
    ground.settings[0].slip_sd = 2.0;
    EXPECT_DOUBLE_EQ(ground.only().slip_sd, 2.0);
}

TEST(ModelFaults, AStatedFaultLiesWhereItIsStated) {
    const Fault fault = Ground().only();
    EXPECT_LT((fault.plane.point - Eigen::Vector3d(10.0, 20.0, -30.0)).norm(), 1e-9);
    EXPECT_LT((fault.plane.normal - Eigen::Vector3d(std::sqrt(0.75), 0.0, 0.5)).norm(), 1e-9);
    EXPECT_FALSE(fault.slip_given);
    EXPECT_GT(offset_sd(fault, fault.plane.point), 4.0);
    EXPECT_GT(offset_sd(fault, fault.plane.point + Eigen::Vector3d(0.0, 200.0, 0.0)), 15.0);
}

TEST(ModelFaults, PicksDrawAStatedFaultToThem) {
    Ground ground;
    for (const double north : {0.0, 60.0, 120.0})
        ground.pick("K" + std::to_string(ground.paths.size()), {50.0, north, 0.0}, 130.0);
    const Fault fault = ground.only();
    EXPECT_EQ(fault.data, 4u);
    const double at_picks = base::signed_distance(fault.plane, {50.0, 60.0, -130.0});
    const double stated = base::signed_distance({{10.0, 20.0, -30.0}, fault.plane.normal}, {50.0, 60.0, -130.0});
    EXPECT_LT(std::abs(at_picks), 0.4 * std::abs(stated));
    EXPECT_LT(offset_sd(fault, {50.0, 60.0, -130.0}), 2.0);
}

TEST(ModelFaults, PicksAloneLayAPlane) {
    Ground ground;
    ground.settings[0].point.reset();
    ground.settings[0].dip.reset();
    ground.settings[0].dip_direction.reset();
    EXPECT_THAT(ground.found(), testing::ElementsAre("fault-attitude-unknown"));
    const double rise = std::tan(std::acos(-1.0) / 3.0);  // dips 60 degrees to the east
    for (const auto& [east, north] : {std::pair{0.0, 0.0}, std::pair{40.0, 90.0}, std::pair{80.0, 10.0}, std::pair{20.0, 50.0}})
        ground.pick("K" + std::to_string(ground.paths.size()), {east, north, 0.0}, 100.0 + rise * east);
    const base::Attitude attitude = base::attitude_of_normal(ground.only().plane.normal);
    EXPECT_NEAR(attitude.dip.degrees(), 60.0, 1e-6);
    EXPECT_NEAR(attitude.dip_direction.degrees(), 90.0, 1e-6);
    EXPECT_TRUE(ground.found().empty());
}

TEST(ModelFaults, ASlipOffThePlaneIsHeldWithinItAndNamed) {
    Ground ground;
    ground.settings[0].slip = Eigen::Vector3d(10.0, 3.0, 0.0);
    EXPECT_THAT(ground.found(), testing::ElementsAre("slip-off-the-plane"));
    EXPECT_NEAR(ground.only().slip.dot(ground.only().plane.normal), 0.0, 1e-9);
    EXPECT_NEAR(ground.only().slip.y(), 3.0, 1e-9);
}

TEST(ModelFaults, ASlipLongerThanTheGroundMovesNothing) {
    Ground ground;
    ground.records.collars = {test::collar("A", {0.0, 0.0, 0.0}, 100.0), test::collar("B", {300.0, 0.0, 0.0}, 100.0)};
    ground.settings[0].strike_slip = 3000.0;
    EXPECT_THAT(ground.found(), testing::ElementsAre("slip-out-of-reach"));
    EXPECT_EQ(ground.only().slip, Eigen::Vector3d(0, 0, 0));
    EXPECT_FALSE(ground.only().slip_given);
}

// A trace that makes a steep fault lean the other way leaves its hanging-wall side where it was stated.
TEST(ModelFaults, ASteepFaultKeepsItsHangingWallSide) {
    Ground ground;
    ground.settings[0].dip = Angle::degrees(88);
    const Eigen::Vector3d stated = base::upward_normal({Angle::degrees(88), Azimuth::degrees(90)});
    for (const double down : {100.0, 200.0, 300.0})
        ground.settings[0].trace.emplace_back(1010.0 - 0.05 * down, 2020.0 + down / 4.0, -30.0 - down);
    EXPECT_GT(ground.only().plane.normal.dot(stated), 0.99);
    EXPECT_LT(ground.only().plane.normal.z(), 0.0);
}

TEST(ModelFaults, TheOrderTellsWhichCutWhich) {
    Ground ground;
    ground.settings.push_back(ground.settings[0]);
    ground.settings[1].name = "Late Fault";
    ground.veins = {"North", "South"};
    ground.order = {"North", "Cross Fault", "South", "Late Fault"};
    const Events events = ground.model().value;
    ASSERT_EQ(events.younger_than("North").size(), 2u);
    EXPECT_EQ(events.younger_than("North")[0].name, "Cross Fault");
    ASSERT_EQ(events.younger_than("South").size(), 1u);
    EXPECT_EQ(events.younger_than("South")[0].name, "Late Fault");
    EXPECT_TRUE(ground.found().empty());
    ground.order = {"North", "Late Fault"};
    EXPECT_THAT(ground.found(), testing::ElementsAre("event-without-order"));
    EXPECT_TRUE(ground.model().value.younger_than("South").empty());
    EXPECT_EQ(ground.model().value.younger_than("North").size(), 1u);
}

// Picks of a fault on both sides of a younger one that moved half of it lie on one plane once that is undone.
TEST(ModelFaults, AnOlderFaultIsLaidAsItWasBeforeTheYoungerOne) {
    Ground ground;
    ground.settings[0].point.reset();
    ground.settings[0].dip.reset();
    ground.settings[0].dip_direction.reset();
    ground.settings.push_back({});
    settings::FaultSetting& late = ground.settings[1];
    late.name = "Late Fault";
    late.point = Eigen::Vector3d(1000.0, 2150.0, 0.0);
    late.dip = Angle::degrees(90);
    late.dip_direction = Azimuth::degrees(0);  // its hanging-wall side is the north
    late.slip = Eigen::Vector3d(40.0, 0.0, 0.0);
    late.slip_sd = 0.5;
    ground.order = {"North", "Cross Fault", "Late Fault"};
    // It dips 45 degrees to the east, from east 0 at the surface; north of 150 m all is 40 m further east.
    for (const double north : {0.0, 60.0, 120.0, 180.0, 240.0, 300.0})
        for (const double depth : {80.0, 160.0})
            ground.pick("K" + std::to_string(ground.paths.size()), {depth + (north > 150.0 ? 40.0 : 0.0), north, 0.0}, depth);
    EXPECT_THAT(ground.found(), testing::IsEmpty());
    const Events events = ground.model().value;
    ASSERT_EQ(events.faults.size(), 2u);
    EXPECT_EQ(events.faults[0].name, "Cross Fault");
    EXPECT_LT((events.faults[0].plane.normal - Eigen::Vector3d(std::sqrt(0.5), 0.0, std::sqrt(0.5))).norm(), 0.01);
    EXPECT_LT(events.faults[0].residual_rms, 0.3);
}

TEST(ModelFaults, APickFarOffThePlaneIsNamed) {
    Ground ground;
    for (const double north : {0.0, 60.0, 120.0, 180.0, 240.0, 300.0})
        ground.pick("K" + std::to_string(ground.paths.size()), {50.0, north, 0.0}, north == 180.0 ? 190.0 : 100.0);
    EXPECT_THAT(ground.found(), testing::ElementsAre("fault-off-its-plane"));
}

}  // namespace
}  // namespace selvage::faults
