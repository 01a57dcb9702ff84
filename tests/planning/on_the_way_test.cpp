#include "planning/on_the_way.h"

#include "planning/straight_hole.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

namespace selvage::planning {
namespace {

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
    const double reach = 1.2816 * 4.0;
    EXPECT_NEAR(dangers[0].from, 100.0 - reach, 1.0);
    EXPECT_NEAR(dangers[0].to, 100.0 + reach, 1.0);
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

// A hole straight down, and what a neighbour so far off met between two depths.
Surroundings::Event met(const std::string& what, const std::string& hole, double away, double from, double to) {
    return {what, hole, {away, 0.0, -from}, {away, 0.0, -to}};
}
paths::Path upright() { return straight("P", 0.0, 400.0, Eigen::Vector3d::Zero(), 90.0); }

// Broken ground in many holes, one under the other: told where the nearest ones met it, not as one range down the hole.
TEST(OnTheWay, WhatManyNeighboursMetIsJoinedOverNoMoreThanFifteenMetres) {
    Surroundings all;
    for (int i = 0; i < 12; ++i)
        all.events.push_back(met("broken ground", "N" + std::to_string(i), 6.0 + i % 3, 100.0 + 10.0 * i, 102.0 + 10.0 * i));
    const std::vector<Danger> dangers = on_the_way(upright(), 0.0, 400.0, all);
    ASSERT_EQ(dangers.size(), 6u);
    for (std::size_t i = 0; i < dangers.size(); ++i) {
        const double first = 100.0 + 20.0 * static_cast<double>(i);
        EXPECT_NEAR(dangers[i].from, first - *dangers[i].nearest, 1e-6);
        EXPECT_NEAR(dangers[i].to, first + 12.0 + *dangers[i].nearest, 1e-6);
        ASSERT_EQ(dangers[i].seen_in.size(), 2u);
        EXPECT_LE(*dangers[i].nearest, 7.0 + 1e-6);
    }
    // The nearest of two names the danger first, and its distance widens the range.
    EXPECT_EQ(dangers[1].seen_in, (std::vector<std::string>{"N3", "N2"}));
}

TEST(OnTheWay, ALongStretchOfANeighbourStaysWhole) {
    Surroundings all;
    all.events = {met("core lost", "N1", 5.0, 100.0, 160.0), met("core lost", "N2", 8.0, 130.0, 150.0),
                  met("core lost", "N3", 8.0, 158.0, 170.0)};
    const std::vector<Danger> dangers = on_the_way(upright(), 0.0, 400.0, all);
    ASSERT_EQ(dangers.size(), 2u);
    EXPECT_NEAR(dangers[0].from, 95.0, 1e-6);
    EXPECT_NEAR(dangers[0].to, 165.0, 1e-6);
    EXPECT_EQ(dangers[0].seen_in, (std::vector<std::string>{"N1", "N2"}));
    EXPECT_EQ(dangers[1].seen_in, std::vector<std::string>{"N3"});
}

// Two faults of one name, the ranges of which overlap: both likely depths are told.
TEST(OnTheWay, NoLikelyDepthOfAFaultIsLostWhereItsPiecesOverlap) {
    faults::Events faults;
    faults.faults = {upright_fault(70.0, 20.0), upright_fault(75.0, 20.0), upright_fault(80.0, 20.0)};
    Surroundings all;
    all.faults = &faults;
    const std::vector<Danger> dangers = on_the_way(straight("P", 90.0, 200.0), 0.0, 200.0, all);
    std::vector<double> likely;
    for (const Danger& danger : dangers)
        if (danger.likely) likely.push_back(*danger.likely);
    std::sort(likely.begin(), likely.end());
    ASSERT_EQ(likely.size(), 3u);
    for (std::size_t i = 0; i < 3; ++i) EXPECT_NEAR(likely[i], (70.0 + 5.0 * static_cast<double>(i)) * std::sqrt(2.0), 1e-6);
}

TEST(MostTelling, AreTheModelledOnesTheVoidsAndThenTheNearest) {
    const auto danger = [](const char* what, double from, std::optional<double> nearest) {
        Danger made;
        made.what = what;
        made.from = from;
        made.nearest = nearest;
        if (nearest) made.seen_in = {"N"};
        return made;
    };
    const std::vector<Danger> all{danger("fault", 10.0, 12.0), danger("fault", 40.0, 3.0),      danger("water loss", 60.0, 7.0),
                                  danger("void", 80.0, 29.0),  danger("Cross Fault", 90.0, {}), danger("fault", 120.0, 20.0),
                                  danger("fault", 150.0, 9.0), danger("core lost", 180.0, 5.0)};
    std::vector<double> depths;
    for (const Danger& one : most_telling(all, 5)) depths.push_back(one.from);
    EXPECT_EQ(depths, (std::vector<double>{40.0, 60.0, 80.0, 90.0, 180.0}));
    depths.clear();
    for (const Danger& one : most_telling(all, 1)) depths.push_back(one.from);
    EXPECT_EQ(depths, (std::vector<double>{80.0, 90.0})) << "modelled ones and voids always";
    EXPECT_EQ(most_telling(all, 20).size(), all.size());
    EXPECT_EQ(by_telling(all), (std::vector<std::size_t>{4, 3, 1, 7, 2, 6, 0, 5}));
}

TEST(OnTheWay, WhatLiesFurtherOffThanThirtyMetresIsNotTold) {
    Surroundings all;
    all.events.push_back({"void", "N", {50.0, 31.0, -50.0}, {50.0, 31.0, -50.0}});
    EXPECT_TRUE(on_the_way(straight("P", 90.0, 200.0), 0.0, 200.0, all).empty());
    all.events.push_back({"void", "M", {50.0, 29.0, -50.0}, {50.0, 29.0, -50.0}});
    EXPECT_EQ(on_the_way(straight("P", 90.0, 200.0), 0.0, 200.0, all).size(), 1u);
}

}  // namespace
}  // namespace selvage::planning
