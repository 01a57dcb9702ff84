#include "intercepts/intercept.h"

#include "intercepts/strands.h"
#include "support/record_builders.h"

#include <gtest/gtest.h>

namespace selvage::intercepts {
namespace {

using base::Angle;
using base::Azimuth;
using base::Dip;
using tables::PickState;
using test::pick;

// Two holes, K-07 and K-08, straight down 60 to the north, 50 m apart; veins North and South.
struct Site {
    tables::Records records;
    std::vector<paths::Path> paths;
    std::vector<orientation::Orientation> orientations;
    InterceptSettings settings;

    Site() {
        records.analytes = test::silver_and_lead();
        settings.veins = {"North", "South"};
        for (const char* hole : {"K-07", "K-08"}) {
            const Eigen::Vector3d at(50.0 * static_cast<double>(paths.size()), 0.0, 0.0);
            records.collars.push_back(test::collar(hole, at, 300.0));
            paths.push_back(test::straight_path(hole, paths.size(), at, {Azimuth::degrees(0), Dip::degrees(60)}, 300.0));
        }
    }
    base::Checked<Intercepts> made() const { return make_intercepts(records, paths, orientations, settings); }
};

std::vector<std::string> ids(const std::vector<base::Finding>& findings) {
    std::vector<std::string> out;
    for (const base::Finding& finding : findings) out.emplace_back(finding.check->id);
    return out;
}

TEST(Intercepts, StandInCollarOrderThenDepthThenVeinOrder) {
    Site site;
    site.records.picks = {pick("K-08", 90, 91, "North"), pick("K-07", 200, 201, "North"), pick("K-07", 120, 121, "South"),
                          pick("K-08", 90, 90.5, "South")};
    const auto met = site.made().value.met;
    ASSERT_EQ(met.size(), 4U);
    EXPECT_EQ(met[0].vein, "South");
    EXPECT_EQ(met[1].vein, "North");
    EXPECT_EQ(met[1].hole, "K-07");
    EXPECT_EQ(met[2].vein, "North");
    EXPECT_EQ(met[3].vein, "South");
}

TEST(Intercepts, PointIsTheMiddleOfThePick) {
    Site site;
    site.records.picks = {pick("K-08", 99, 101, "North")};
    const Intercept met = site.made().value.met.at(0);
    EXPECT_NEAR((met.point - Eigen::Vector3d(50.0, 50.0, -86.60254037844386)).norm(), 0.0, 1e-9);
    EXPECT_NEAR((met.hole_direction - Eigen::Vector3d(0.0, 0.5, -0.8660254037844386)).norm(), 0.0, 1e-9);
}

TEST(Intercepts, StrandsOfOneZoneAreOneEnvelope) {
    Site site;
    site.records.picks = {pick("K-07", 174, 175, "North"), pick("K-07", 171, 172, "North")};
    for (auto& row : site.records.picks) row.zone = row.from > 172 ? "a" : "A ";
    site.records.picks[0].certainty = 2;
    site.records.picks[0].to_sd = 0.2;
    site.records.picks[1].from_sd = 0.1;
    site.records.picks[1].to_sd = 0.3;
    const auto made = site.made();
    ASSERT_EQ(made.value.met.size(), 1U);
    EXPECT_TRUE(made.findings.empty());
    EXPECT_EQ(made.value.met[0].from, 171.0);
    EXPECT_EQ(made.value.met[0].to, 175.0);
    EXPECT_EQ(made.value.met[0].certainty, 2);
    EXPECT_EQ(made.value.met[0].from_sd, 0.1);
    EXPECT_EQ(made.value.met[0].to_sd, 0.2);
    EXPECT_EQ(made.value.met[0].flags.front(), "likely");
}

TEST(Intercepts, AdjoiningStrandsAreOne) {
    Site site;
    site.records.picks = {pick("K-07", 231.80, 231.98, "North"), pick("K-07", 231.985, 232.25, "North"),
                          pick("K-07", 232.25, 232.40, "North")};
    ASSERT_EQ(site.made().value.met.size(), 1U);
    EXPECT_EQ(site.made().value.met[0].to, 232.40);
    site.records.picks[1].from = 231.99;  // a gap of 0.01 m
    EXPECT_TRUE(site.made().value.met.empty());
}

TEST(Intercepts, AStrandInsideAZonesEnvelopeBelongsToIt) {
    Site site;
    site.records.picks = {pick("K-07", 170, 171, "North"), pick("K-07", 172, 173, "North"), pick("K-07", 175, 176, "North")};
    site.records.picks[0].zone = site.records.picks[2].zone = "A";
    ASSERT_EQ(site.made().value.met.size(), 1U);
    EXPECT_EQ(site.made().value.met[0].from, 170.0);
    EXPECT_EQ(site.made().value.met[0].to, 176.0);
}

TEST(Intercepts, JoinedStatesKeepTheOneThatLeavesMostUnknown) {
    Site site;
    site.records.picks = {pick("K-07", 170, 171, "North"), pick("K-07", 171, 172, "North")};
    site.records.picks[1].state = PickState::structure;
    EXPECT_EQ(site.made().value.met.at(0).state, PickState::vein);
    site.records.picks[1].state = PickState::lost;
    EXPECT_EQ(site.made().value.met.at(0).state, PickState::lost);
    site.records.picks[0].state = PickState::open_void;
    EXPECT_EQ(site.made().value.met.at(0).state, PickState::open_void);
}

TEST(Intercepts, TwoOthersOfOneVeinAndHoleAreLeftOutAndNamed) {
    Site site;
    site.records.picks = {pick("K-07", 212.0, 212.8, "North", 5), pick("K-07", 230.5, 231.5, "North", 6),
                          pick("K-08", 200, 201, "North", 7), pick("K-07", 100, 101, "South", 8)};
    const auto made = site.made();
    ASSERT_EQ(made.value.met.size(), 2U);
    EXPECT_EQ(made.value.met[0].vein, "South");
    EXPECT_EQ(made.value.met[1].hole, "K-08");
    ASSERT_EQ(ids(made.findings), std::vector<std::string>{"vein-met-twice"});
    EXPECT_EQ(base::line_of(made.findings[0]),
              "picks.csv:5: error: hole K-07: meets North twice (212.4, 231.0 m): give them one zone, or name one of them as its "
              "own vein; both are left out");
}

TEST(Intercepts, DifferentZonesAreNotOneIntercept) {
    Site site;
    site.records.picks = {pick("K-07", 212.0, 212.8, "North"), pick("K-07", 230.5, 231.5, "North")};
    site.records.picks[0].zone = "A";
    site.records.picks[1].zone = "B";
    EXPECT_TRUE(site.made().value.met.empty());
}

TEST(Intercepts, AYoungerFaultBetweenTwoKeepsBoth) {
    Site site;
    site.records.picks = {pick("K-07", 210, 211, "North"), pick("K-07", 230, 231, "North")};
    faults::Fault fault;
    fault.name = "Cross Fault";
    fault.plane = {{0.0, 110.0, 0.0}, Eigen::Vector3d::UnitY()};  // the hole is at north 110 at depth 220
    site.settings.events.faults = {fault};
    site.settings.events.order = {"North", "Cross Fault"};
    EXPECT_EQ(site.made().value.met.size(), 2U);
    EXPECT_TRUE(site.made().findings.empty());

    Site older = site;
    older.settings.events.order = {"Cross Fault", "North"};
    EXPECT_TRUE(older.made().value.met.empty());
    Site unordered = site;
    unordered.settings.events.order.clear();
    EXPECT_TRUE(unordered.made().value.met.empty());
    Site elsewhere = site;
    elsewhere.settings.events.faults[0].plane.point.y() += 30.0;
    EXPECT_TRUE(elsewhere.made().value.met.empty());
    Site third = site;
    third.records.picks.push_back(pick("K-07", 250, 251, "North"));
    ASSERT_EQ(third.made().value.met.size(), 1U);
    EXPECT_EQ(third.made().value.met[0].from, 210.0);
}

TEST(Intercepts, GeologySpeaksOnlyWhereAHoleHasNoPick) {
    Site site;
    site.records.picks = {pick("K-07", 100, 101, "South")};
    for (const char* hole : {"K-07", "K-08"}) {
        tables::GeologyInterval row;
        row.hole = hole;
        row.from = 150;
        row.to = 151;
        row.vein = "North";
        row.certainty = 3;
        site.records.geology.push_back(row);
        row.from = 151;
        row.to = 151.5;
        row.certainty = 1;
        site.records.geology.push_back(row);
        row.vein = "";
        row.rock = "andesite";
        site.records.geology.push_back(row);
    }
    const auto met = site.made().value.met;
    ASSERT_EQ(met.size(), 2U);
    EXPECT_EQ(met[0].vein, "South");
    EXPECT_EQ(met[1].hole, "K-08");
    EXPECT_EQ(met[1].from, 150.0);
    EXPECT_EQ(met[1].to, 151.5);
    EXPECT_EQ(met[1].certainty, 3);
}

TEST(Intercepts, FaultedAndAbsentAreNoIntercepts) {
    Site site;
    site.records.picks = {pick("K-07", 100, 101, "North"), pick("K-07", 110, 112, "North"), pick("K-08", 90, 110, "North")};
    site.records.picks[1].state = PickState::faulted;
    site.records.picks[2].state = PickState::absent;
    const auto made = site.made();
    EXPECT_EQ(made.value.met.size(), 1U);
    ASSERT_EQ(made.value.not_there.size(), 2U);
    EXPECT_EQ(made.value.not_there[0].state, PickState::faulted);
    EXPECT_EQ(made.value.not_there[1].hole, "K-08");
    EXPECT_TRUE(made.findings.empty());
}

TEST(Intercepts, WhatCannotBePlacedIsLeftOutAndNamed) {
    Site site;
    site.records.collars.push_back(test::collar("K-09", Eigen::Vector3d::Zero(), 100));
    site.paths[1].start_depth = 150.0;
    site.paths[1].stations[0].depth = 150.0;
    site.records.picks = {pick("K-09", 50, 51, "North"), pick("K-07", 60, 61, "East"), pick("K-08", 100, 101, "North"),
                          pick("K-08", 160, 161, "North")};
    const auto made = site.made();
    EXPECT_EQ(ids(made.findings),
              (std::vector<std::string>{"pick-of-unplaced-hole", "pick-of-unknown-vein", "pick-above-kickoff"}));
    ASSERT_EQ(made.value.met.size(), 1U);
    EXPECT_EQ(made.value.met[0].from, 160.0);
}

TEST(Intercepts, EveryKindOfHoleGivesThem) {
    Site site;
    site.paths[0].type = tables::HoleType::channel;
    site.records.picks = {pick("K-07", 0.05, 1.7, "North")};
    EXPECT_EQ(site.made().value.met.size(), 1U);
}

TEST(Intercepts, LostCoreIsSummedOverTheRuns) {
    Site site;
    site.records.picks = {pick("K-07", 100, 102, "North")};
    site.records.recovery = {test::recovery("K-07", 99, 101, 0.9), test::recovery("K-07", 101, 104, 0.4),
                             test::recovery("K-08", 99, 104, 0.0)};
    Intercept met = site.made().value.met.at(0);
    EXPECT_NEAR(met.lost_length, 0.1 + 0.6, 1e-12);
    EXPECT_NEAR(*met.recovery, 0.65, 1e-12);
    EXPECT_EQ(met.flags, std::vector<std::string>{"lost-core"});

    site.records.recovery[1].recovery = 0.05;
    EXPECT_EQ(site.made().value.met.at(0).flags, (std::vector<std::string>{"lost-core", "low-recovery"}));
    site.records.picks[0].state = PickState::open_void;  // no core to lose
    EXPECT_TRUE(site.made().value.met.at(0).flags.empty());
    site.records.picks[0].state = PickState::vein;
    site.records.recovery = {test::recovery("K-07", 99, 104, 1.03)};  // core swells, runs are mismeasured
    EXPECT_EQ(site.made().value.met.at(0).lost_length, 0.0);
    EXPECT_EQ(*site.made().value.met.at(0).recovery, 1.0);
    site.records.recovery.clear();
    EXPECT_FALSE(site.made().value.met.at(0).recovery);
}

TEST(Intercepts, OfAVoidOrLostPickHaveNoGrade) {
    Site site;
    site.records.picks = {pick("K-07", 100, 102, "North")};
    site.records.assays = {test::sample("K-07", 100, 102, {500.0, 1.0})};
    EXPECT_TRUE(site.made().value.met.at(0).grades.at(0));
    site.records.picks[0].state = PickState::lost;
    EXPECT_FALSE(site.made().value.met.at(0).grades.at(0));
    EXPECT_EQ(site.made().value.met.at(0).grades.size(), 2U);
    EXPECT_EQ(site.made().value.met.at(0).lost_length, 2.0);
    site.records.picks[0].state = PickState::open_void;
    EXPECT_FALSE(site.made().value.met.at(0).grades.at(0));
    EXPECT_EQ(site.made().value.met.at(0).lost_length, 0.0);
}

TEST(Intercepts, CarryTheirSamplesWords) {
    Site site;
    site.records.picks = {pick("K-07", 100, 102, "North")};
    site.records.assays = {test::sample("K-07", 100, 101, {1500.0, 1.0})};
    site.records.assays[0].values[0].over_limit = true;
    const Intercept met = site.made().value.met.at(0);
    EXPECT_EQ(met.flags, (std::vector<std::string>{"over-limit", "part-sampled", "unsampled-as-zero"}));
    EXPECT_NEAR(met.grades[0]->value, 750.0, 1e-9);
    EXPECT_STREQ(word_of(met.sampled), "part assayed");
}

TEST(Intercepts, TakeTheirContacts) {
    Site site;
    site.records.picks = {pick("K-07", 100, 102, "North"), pick("K-07", 101, 101.5, "South")};
    const Eigen::Vector3d pole = base::upward_normal({Angle::degrees(70), Azimuth::degrees(180)});
    site.orientations = {test::contact("K-07", 100.0, "North", pole, Angle::degrees(50)),
                         test::contact("K-08", 100.0, "North", -pole, Angle::degrees(10))};
    const auto met = site.made().value.met;
    EXPECT_EQ(met.at(0).poles, 1U);
    EXPECT_EQ(met.at(1).poles, 0U);
    EXPECT_NEAR((*met.at(0).core_normal - pole).norm(), 0.0, 1e-12);
}

}  // namespace
}  // namespace selvage::intercepts
