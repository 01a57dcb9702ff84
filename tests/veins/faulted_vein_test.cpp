#include "veins/faulted_scene.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

namespace selvage::veins {
namespace {

const Crossing* of_block(const std::vector<Crossing>& crossings, const std::string& block) {
    const auto found = std::find_if(crossings.begin(), crossings.end(), [&](const Crossing& one) { return one.block == block; });
    return found == crossings.end() ? nullptr : &*found;
}

// Without noise: contacts on one side of the fault, foretold from those of the other side alone.
TEST(FaultedVein, OneSideForetellsTheOther) {
    FaultedScene world({0.0, -14.0, 22.0});
    int number = 0;
    for (const double u : {-120.0, -70.0, -20.0, 20.0})
        for (const double v : {-60.0, -10.0, 45.0, 90.0}) {
            ++number;
            world.hit("L-" + std::to_string(number), {u + 3.0 * std::sin(number), v}, 45.0 + 5.0 * (number % 7), 40.0 * number);
        }
    const std::size_t drilled = world.scene.paths.size();
    for (const double u : {130.0, 160.0, 200.0})
        for (const double v : {-30.0, 20.0, 70.0}) world.hit("N-" + std::to_string(number++), {u, v}, 70.0, 90.0, false);
    std::vector<paths::Path> planned(world.scene.paths.begin() + static_cast<std::ptrdiff_t>(drilled), world.scene.paths.end());
    world.scene.paths.resize(drilled);
    for (paths::Path& path : world.scene.paths) path.sources.clear();
    const std::vector<Vein> veins = world.scene.model();
    ASSERT_EQ(veins.size(), 1u);
    for (const paths::Path& path : planned) {
        const auto crossings = veins[0].crossings(path);
        const Crossing* beyond = of_block(crossings, "Cross Fault+");
        ASSERT_NE(beyond, nullptr) << path.hole;
        EXPECT_NEAR(beyond->depth_at(0.5), Scene::before_vein, 0.2) << path.hole;
        EXPECT_GT(beyond->chance, 0.99);
    }
}

FaultedScene both_sides(const Eigen::Vector3d& slip) {
    FaultedScene world(slip);
    world.lattice();
    return world;
}

TEST(FaultedVein, IsOneVeinInTwoBlocks) {
    const FaultedScene world = both_sides({0.0, -14.0, 22.0});
    Scene scene = world.scene;
    const std::vector<Vein> veins = scene.model();
    ASSERT_EQ(veins.size(), 1u);
    const Vein& vein = veins[0];
    EXPECT_LT(vein.summary().slope_sd, 0.05) << "the step is the fault's, not the vein's";
    EXPECT_LT(vein.summary().residual_rms, 0.3);
    for (const intercepts::Intercept& met : scene.intercepts.met) {
        const AtPoint there = vein.at(met.point);
        EXPECT_EQ(there.block, base::signed_distance(world.fault.plane, met.point) < 0.0 ? "Cross Fault-" : "Cross Fault+");
        EXPECT_LT((there.on_vein - met.point).norm(), 0.5);
        EXPECT_TRUE(there.within_extent);
    }
    // Its outline ends at the fault on both sides, and says so.
    int at_fault = 0;
    for (const EdgeLine& edge : vein.edges()) {
        const double side = edge.block == "Cross Fault+" ? 1.0 : -1.0;
        for (const Eigen::Vector3d& point : edge.points)
            EXPECT_GT(side * base::signed_distance(world.fault.plane, point), -0.5) << edge.block;
        if (edge.reason != EdgeReason::fault) continue;
        ++at_fault;
        for (const Eigen::Vector3d& point : edge.points) EXPECT_NEAR(base::signed_distance(world.fault.plane, point), 0.0, 2.0);
    }
    EXPECT_GE(at_fault, 2);
    // A section along strike shows it offset by the slip's throw.
    const base::Plane section{scene.chart.centre, scene.chart.v()};
    const auto traces = vein.traces(section, 250.0, 5.0);
    ASSERT_EQ(traces.size(), 2u);
    const auto level = [&](const std::vector<TracePoint>& trace) {
        double sum = 0.0;
        for (const TracePoint& point : trace)
            sum += scene.chart.chart_from_world(point.mid).z() / static_cast<double>(trace.size());
        return sum;
    };
    const double throw_across = world.fault.slip.dot(scene.chart.w());
    EXPECT_NEAR(level(traces[1]) - level(traces[0]), throw_across, 0.3);
}

// A hole that passes where a normal fault pulled the vein apart meets it in neither block; through a reverse fault, in both.
TEST(FaultedVein, GapsAndRepeatsAreFound) {
    for (const double throw_sign : {-1.0, 1.0}) {
        FaultedScene world = both_sides({throw_sign * 20.0, 0.0, throw_sign * -30.0});
        // Square to the vein half way between where both sides end at the fault.
        const Eigen::Vector3d foot = world.scene.chart.world_from_chart({75.0, 0.0, 0.0}) + world.fault.slip / 2.0;
        const Eigen::Vector3d down = -world.scene.chart.w();
        paths::Path path =
            test::straight_path("X-1", world.scene.paths.size(), foot - 150.0 * down, base::direction_of(down), 300.0);
        world.scene.records.collars.push_back(test::collar("X-1", path.stations.front().position, 300.0));
        world.scene.log("X-1", 0.0, 300.0);
        world.scene.paths.push_back(path);
        const std::vector<Vein> veins = world.scene.model();
        const std::vector<Crossing> crossings = veins[0].crossings(path);
        double chances = 0.0;
        for (const Crossing& crossing : crossings) chances += crossing.chance;
        const auto& rows = veins[0].no_vein();
        if (throw_sign > 0.0) {
            EXPECT_LT(chances, 0.1);
            ASSERT_EQ(rows.size(), 1u);
            EXPECT_EQ(rows[0].hole, "X-1");
            EXPECT_EQ(rows[0].reason, NoVeinReason::fault_gap);
        } else {
            EXPECT_GT(chances, 1.9);
            EXPECT_EQ(crossings.size(), 2u);
            EXPECT_EQ(rows.size(), 2u) << "it was logged and shows neither: two misses";
        }
    }
}

// Across the vein both sides tell the throw of a fault whose slip nobody gave; along it they tell little, and say so.
TEST(FaultedVein, BothSidesTellASlipThatIsNotGiven) {
    FaultedScene world = both_sides({0.0, -14.0, 22.0});
    world.scene.settings.events.faults[0].slip_given = false;
    world.scene.settings.events.faults[0].slip = Eigen::Vector3d::Zero();
    const auto modelled = world.scene.model_with_findings();
    EXPECT_EQ(count_of(modelled.findings, "slip-not-given"), 1u);
    ASSERT_EQ(modelled.value.at(0).slips().size(), 1u);
    const SlipEstimate& slip = modelled.value[0].slips()[0];
    EXPECT_FALSE(slip.given);
    const Eigen::Vector3d w = world.scene.chart.w();
    EXPECT_NEAR(slip.slip.dot(w), world.fault.slip.dot(w), 1.0);
    EXPECT_GT(slip.sd.norm(), 10.0);
    for (Eigen::Index axis = 0; axis < 3; ++axis)
        EXPECT_LT(std::abs(slip.slip(axis) - world.fault.slip(axis)), 3.0 * slip.sd(axis));
}

// A slip said 6 m wrong, and said to be known to 5 m: what both sides show is drawn, not what was said, and holes beside the
// fault are better known than one alone.
TEST(FaultedVein, WhatIsDrawnFollowsTheDataWhereTheyCorrectTheSlip) {
    FaultedScene world = both_sides({0.0, -14.0, 22.0});
    const Eigen::Vector3d w = world.scene.chart.w();
    faults::Fault& said = world.scene.settings.events.faults[0];
    said.slip += 6.0 * (w - said.plane.normal * said.plane.normal.dot(w));
    said.slip_sd = 5.0;
    const std::vector<Vein> veins = world.scene.model();
    const Vein& vein = veins.at(0);
    EXPECT_LT(vein.summary().slope_sd, 0.06) << "the step is the slip's error, not the vein's";
    for (const intercepts::Intercept& met : world.scene.intercepts.met) {
        const AtPoint there = vein.at(met.point);
        EXPECT_LT((there.on_vein - met.point).norm(), 0.6) << met.hole;
        EXPECT_LT(std::sqrt(there.height.variance()), 0.6) << met.hole;
    }
    // Between the holes of the hanging-wall block too, and its body passes there.
    const Eigen::Vector3d between = world.scene.chart.world_from_chart({147.0, 15.0, 0.0}) + world.fault.slip;
    const AtPoint there = vein.at(between);
    EXPECT_EQ(there.block, "Cross Fault+");
    EXPECT_NEAR((there.on_vein - between).dot(w), 0.0, 0.7);
    EXPECT_LT(std::abs(there.height.mean()), 3.0 * std::sqrt(there.height.variance()));
    // Where the block has no hole of its own the slip's error is part of the doubt.
    FaultedScene alone({0.0, -14.0, 22.0});
    int number = 0;
    for (const double u : {-120.0, -70.0, -20.0, 20.0})
        for (const double v : {-60.0, -10.0, 45.0, 90.0}) alone.hit("L-" + std::to_string(number++), {u, v}, 75.0, 90.0);
    alone.scene.settings.events.faults[0].slip_sd = 5.0;
    const std::vector<Vein> foretold = alone.scene.model();
    const Eigen::Vector3d beyond = alone.scene.chart.world_from_chart({110.0, 15.0, 0.0}) + alone.fault.slip;
    const double sd = std::sqrt(foretold.at(0).at(beyond).height.variance());
    alone.scene.settings.events.faults[0].slip_sd = 0.0;
    const std::vector<Vein> sure = alone.scene.model();
    const double sd_of_sure = std::sqrt(sure.at(0).at(beyond).height.variance());
    EXPECT_GT(sd * sd, sd_of_sure * sd_of_sure + 15.0);
}

TEST(FaultedVein, AHitBesideAFaultThatIsNotWellKnownIsNamed) {
    FaultedScene world = both_sides({0.0, -14.0, 22.0});
    world.hit("B-1", {73.0, 0.0}, 80.0, 90.0);
    world.hit("B-2", {74.0, 30.0}, 80.0, 90.0);
    world.scene.settings.events.faults[0].covariance(0, 0) = 9.0;
    EXPECT_EQ(count_of(world.scene.model_with_findings().findings, "met-near-fault"), 1u) << "one for a fault, not for each hit";
    FaultedScene far = both_sides({0.0, -14.0, 22.0});
    EXPECT_EQ(count_of(far.scene.model_with_findings().findings, "met-near-fault"), 0u);
}

// A slip said 12 m wrong across the vein and known to 2 m: the table says both, and it is named; one that fits is not.
TEST(FaultedVein, ASlipAgainstWhichTheDataSpeakIsNamed) {
    FaultedScene world = both_sides({0.0, -14.0, 22.0});
    const Eigen::Vector3d w = world.scene.chart.w();
    faults::Fault& said = world.scene.settings.events.faults[0];
    said.slip_sd = 2.0;
    EXPECT_EQ(count_of(world.scene.model_with_findings().findings, "slip-against-data"), 0u);
    said.slip += 12.0 * (w - said.plane.normal * said.plane.normal.dot(w));
    const auto modelled = world.scene.model_with_findings();
    EXPECT_EQ(count_of(modelled.findings, "slip-against-data"), 1u);
    const SlipEstimate& slip = modelled.value.at(0).slips().at(0);
    EXPECT_EQ(slip.slip, said.slip);
    EXPECT_LT(std::abs((slip.used - world.fault.slip).dot(w)), 0.4 * std::abs((said.slip - world.fault.slip).dot(w)));
}

TEST(FaultedVein, AFaultThatComesNowhereNearIsNamed) {
    FaultedScene world({0.0, -14.0, 22.0}, 900.0);
    world.lattice();
    const auto modelled = world.scene.model_with_findings();
    EXPECT_EQ(count_of(modelled.findings, "fault-cuts-nothing"), 1u);
    FaultedScene near = both_sides({0.0, -14.0, 22.0});
    EXPECT_EQ(count_of(near.scene.model_with_findings().findings, "fault-cuts-nothing"), 0u);
}

}  // namespace
}  // namespace selvage::veins
