#include "planning/on_the_way.h"

#include <gtest/gtest.h>

#include <cmath>

namespace selvage::planning {
namespace {

// A straight hole from the origin towards an azimuth, dipping 45 degrees.
paths::Path straight(const std::string& name, double azimuth, double end, const Eigen::Vector3d& collar = Eigen::Vector3d::Zero(),
                     double dip = 45.0) {
    paths::Path path;
    path.hole = name;
    path.collar = collar;
    path.end_depth = path.drilled_depth = end;
    path.stations.resize(1);
    path.stations[0].direction = {base::Azimuth::degrees(azimuth), base::Dip::degrees(dip)};
    path.stations[0].position = collar;
    paths::settle(path.stations);
    path.stations[0].position = collar;
    return path;
}

faults::Fault upright_fault(double east, double offset_sd) {
    faults::Fault fault;
    fault.name = "Cross Fault";
    fault.plane = {{east, 0.0, 0.0}, Eigen::Vector3d::UnitX()};
    fault.first_axis = Eigen::Vector3d::UnitY();
    fault.second_axis = Eigen::Vector3d::UnitZ();
    fault.covariance(0, 0) = offset_sd * offset_sd;
    return fault;
}

// East at 45 degrees: a plane 70.71 m to the east is crossed at 100 m. With a sd of 2 m square to it and waves of 2 m, 4 along
// the hole: 8 holes of 10 cross within 1.2816 of these.
TEST(OnTheWay, AFaultIsExpectedWhereTheHoleCrossesIt) {
    faults::Events faults;
    faults.faults = {upright_fault(100.0 / std::sqrt(2.0), 2.0)};
    Surroundings all;
    all.faults = &faults;
    const std::vector<Danger> dangers = on_the_way(straight("P", 90.0, 200.0), 0.0, 200.0, all);
    ASSERT_EQ(dangers.size(), 1u);
    EXPECT_EQ(dangers[0].what, "Cross Fault");
    ASSERT_TRUE(dangers[0].likely);
    EXPECT_NEAR(*dangers[0].likely, 100.0, 1e-6);
    const double half = 1.2816 * 4.0;
    EXPECT_NEAR(dangers[0].from, 100.0 - half, 1.0);
    EXPECT_NEAR(dangers[0].to, 100.0 + half, 1.0);
    EXPECT_TRUE(on_the_way(straight("P", 90.0, 200.0), 120.0, 200.0, all).empty());
    EXPECT_TRUE(on_the_way(straight("P", 270.0, 200.0), 5.0, 200.0, all).empty());
}

TEST(OnTheWay, AThinWellKnownFaultIsNotSteppedOver) {
    faults::Events faults;
    faults.faults = {upright_fault(70.0, 0.0)};
    Surroundings all;
    all.faults = &faults;
    const std::vector<Danger> dangers = on_the_way(straight("P", 90.0, 200.0), 0.0, 200.0, all);
    ASSERT_EQ(dangers.size(), 1u);
    EXPECT_NEAR(dangers[0].to - dangers[0].from, 2.0 * 1.2816 * 2.0 * std::sqrt(2.0), 1e-3) << "its waves alone";
}

// A parallel hole 10 m to the north that lost its core from 50 to 53 m and fell into a void at 90 m.
TEST(OnTheWay, WhatANeighbourMetIsExpectedAcrossFromItWithItsDistanceToEitherSide) {
    tables::Records records;
    const std::vector<paths::Path> paths{straight("N", 90.0, 200.0, {0.0, 10.0, 0.0}), straight("P", 90.0, 200.0)};
    const auto row = [](double from, double to, double recovery) {
        tables::Recovery made;
        made.hole = "N";
        made.from = from;
        made.to = to;
        made.recovery = recovery;
        return made;
    };
    records.recovery = {row(47, 50, 0.98), row(50, 51.5, 0.3), row(51.5, 53, 0.5), row(53, 56, 0.9)};
    tables::DrillingEvent event;
    event.hole = "N";
    event.kind = "Void";
    event.depth = 90.0;
    records.drilling = {event};
    event.kind = "bit change";
    records.drilling.push_back(event);
    const faults::Events events;
    const site::Workings workings;
    const Surroundings all = surroundings(records, paths, events, workings);
    const std::vector<Danger> dangers = on_the_way(paths[1], 0.0, 200.0, all);
    ASSERT_EQ(dangers.size(), 2u);
    EXPECT_EQ(dangers[0].what, "core lost");
    EXPECT_EQ(dangers[0].seen_in, std::vector<std::string>{"N"});
    EXPECT_NEAR(dangers[0].from, 40.0, 1e-9);
    EXPECT_NEAR(dangers[0].to, 63.0, 1e-9);
    EXPECT_NEAR(*dangers[0].nearest, 10.0, 1e-9);
    EXPECT_EQ(dangers[1].what, "void");
    EXPECT_NEAR(dangers[1].from, 80.0, 1e-9);
    EXPECT_NEAR(dangers[1].to, 100.0, 1e-9);
    EXPECT_TRUE(on_the_way(paths[0], 0.0, 200.0, all).empty()) << "a hole tells nothing of itself";
}

TEST(OnTheWay, WhatLiesFurtherOffThanThirtyMetresIsNotTold) {
    Surroundings all;
    all.events.push_back({"void", "N", {50.0, 31.0, -50.0}, {50.0, 31.0, -50.0}});
    EXPECT_TRUE(on_the_way(straight("P", 90.0, 200.0), 0.0, 200.0, all).empty());
    all.events.push_back({"void", "M", {50.0, 29.0, -50.0}, {50.0, 29.0, -50.0}});
    EXPECT_EQ(on_the_way(straight("P", 90.0, 200.0), 0.0, 200.0, all).size(), 1u);
}

// Side by side at the collar, and parting all the way: none is near further down, and the card names who stands beside.
TEST(NearestHole, HolesOfOnePadThatPartAreToldAtTheStartAlone) {
    const std::vector<paths::Path> paths{straight("P", 90.0, 200.0), straight("A", 80.0, 200.0, {0.0, 3.0, 0.0}),
                                         straight("B", 70.0, 200.0, {0.0, 4.5, 0.0}),
                                         straight("C", 60.0, 200.0, {0.0, 12.0, 0.0})};
    EXPECT_FALSE(nearest_hole(paths[0], 0.0, 200.0, paths));
    const std::vector<NearestHole> beside = holes_beside_start(paths[0], 0.0, 5.0, paths);
    ASSERT_EQ(beside.size(), 2u);
    EXPECT_EQ(beside[0].hole, "A");
    EXPECT_NEAR(beside[0].distance, 3.0, 0.3);
    EXPECT_EQ(beside[1].hole, "B");
    EXPECT_TRUE(holes_beside_start(paths[0], 100.0, 5.0, paths).empty());
}

TEST(NearestHole, OfOnePadCountsWhereTheyNoLongerPart) {
    // From one pad, 5 m apart, and parting by 10 degrees; from far away, one that crosses 12 m over it 60 m down.
    const double down = 60.0 / std::sqrt(2.0);
    const std::vector<paths::Path> paths{straight("P", 90.0, 200.0), straight("A", 80.0, 200.0, {0.0, 5.0, 0.0}),
                                         straight("B", 0.0, 200.0, {down, -100.0, 12.0 - down}, 0.0)};
    const auto nearest = nearest_hole(paths[0], 0.0, 200.0, paths);
    ASSERT_TRUE(nearest);
    EXPECT_EQ(nearest->hole, "B");
    EXPECT_GT(nearest->distance, 8.0);
    EXPECT_LT(nearest->distance, 12.1);
    EXPECT_FALSE(nearest_hole(paths[0], 0.0, 200.0, {paths[0]}));
    // One of the pad that crosses just below it, 10 m off at the collar: the danger is in the upper half.
    const auto crossing = nearest_hole(paths[0], 0.0, 200.0, {paths[0], straight("C", 75.0, 200.0, {0.0, -10.0, 0.0})});
    ASSERT_TRUE(crossing);
    EXPECT_LT(crossing->distance, 1.5);
    EXPECT_LT(crossing->depth, 100.0);
}

}  // namespace
}  // namespace selvage::planning
