#include "paths/locate.h"

#include "paths/path_builder.h"

#include <gtest/gtest.h>
#include <Eigen/Geometry>

#include <cmath>
#include <string>
#include <vector>

namespace selvage::paths {
namespace {

using base::Azimuth;
using base::Dip;
using base::Direction;
using Eigen::Vector3d;
using tables::HoleStatus;

tables::Collar planned(const std::string& hole, double depth, double azimuth, double dip) {
    tables::Collar collar = collar_named(hole, depth, {100, 200, 300});
    collar.azimuth = Azimuth::degrees(azimuth);
    collar.dip = Dip::degrees(dip);
    collar.status = HoleStatus::planned;
    return collar;
}

double azimuth_at(const Path& path, double depth) { return base::direction_of(direction_at(path, depth)).azimuth.degrees(); }
double dip_at(const Path& path, double depth) { return base::direction_of(direction_at(path, depth)).dip.degrees(); }

const ErrorSource* source_of(const Path& path, SourceKind kind, int station = 0) {
    for (const ErrorSource& source : path.sources)
        if (source.id.kind == kind && source.id.station == station) return &source;
    return nullptr;
}

tables::Records parent_and_daughter() {
    tables::Records records;
    records.collars = {collar_named("A-1W", 200), collar_named("A-1", 220)};
    add_surveys(records, "A-1", {{0, 40, 60}, {50, 42, 59}, {100, 45, 57}, {200, 50, 54}});
    add_surveys(records, "A-1W", {{110, 43, 56.5}, {150, 44, 55}, {190, 45, 54}});
    records.collars[0].parent = "A-1";
    records.collars[0].kickoff = 95.0;
    return records;
}

TEST(Locate, FirstStationIsCarriedUpToTheCollar) {
    const auto located = locate(one_hole({{20, 40, 60}, {60, 44, 58}}, 80), {});
    ASSERT_EQ(located.value.size(), 1U);
    const Path& path = located.value[0];
    EXPECT_EQ(path.start_depth, 0.0);
    EXPECT_FALSE(path.stations[0].measured);
    EXPECT_LT((position_at(path, 20) - 20.0 * base::unit_vector({Azimuth::degrees(40), Dip::degrees(60)})).norm(), 1e-12);
    EXPECT_EQ(kind_at(path, 10), PathKind::surveyed);
    EXPECT_EQ(kind_at(path, 60), PathKind::surveyed);
    EXPECT_EQ(kind_at(path, 61), PathKind::extrapolated);
}

TEST(Locate, ASurveyedHoleDoesNotUseItsPlan) {
    tables::Records records = one_hole({{0, 40, 60}, {60, 44, 58}}, 80);
    records.collars[0].azimuth = Azimuth::degrees(90);
    records.collars[0].dip = Dip::degrees(80);
    EXPECT_NEAR(azimuth_at(locate(records, {}).value[0], 0.0), 40.0, 1e-9);
}

TEST(Locate, KindsOfHolesWithoutSurveys) {
    tables::Records records;
    for (const HoleStatus status : {HoleStatus::done, HoleStatus::active, HoleStatus::planned, HoleStatus::cancelled}) {
        records.collars.push_back(planned("H-" + std::to_string(records.collars.size()), 100, 40, 60));
        records.collars.back().status = status;
    }
    records.collars[1].drilled = 30.0;
    const auto located = locate(records, {});
    ASSERT_EQ(located.value.size(), 4U);
    EXPECT_EQ(kind_at(located.value[0], 0.0), PathKind::extrapolated);
    EXPECT_EQ(kind_at(located.value[1], 0.0), PathKind::forecast);
    EXPECT_EQ(kind_at(located.value[2], 50.0), PathKind::planned);
    EXPECT_EQ(kind_at(located.value[3], 50.0), PathKind::planned);
    EXPECT_EQ(located.value[0].drilled_depth, 100.0);
    EXPECT_EQ(located.value[1].drilled_depth, 30.0);
    EXPECT_EQ(located.value[2].drilled_depth, 0.0);
    EXPECT_EQ(count_of(located.findings, "hole-not-surveyed"), 2U);
}

TEST(Locate, AnActiveHoleHasComeAsFarAsItsDeepestRow) {
    tables::Records records = one_hole({{0, 40, 60}, {60, 44, 58}}, 180);
    records.collars[0].status = HoleStatus::active;
    tables::GeologyInterval interval;
    interval.hole = "A-1";
    interval.to = 71.5;
    records.geology.push_back(interval);
    const Path path = locate(records, {}).value[0];
    EXPECT_EQ(path.drilled_depth, 71.5);
    EXPECT_EQ(kind_at(path, 65), PathKind::forecast);
    EXPECT_LT((direction_at(path, 170) - path.stations.back().tangent).norm(), 1e-15);
}

TEST(Locate, WithoutSurveyedHolesPlannedOnesRunStraightWithTheirOwnErrors) {
    tables::Records records;
    records.collars = {planned("N-1", 200, 310, 55)};
    const Path path = locate(records, {}).value[0];
    EXPECT_LT(
        (position_at(path, 200) - Vector3d(100, 200, 300) - 200.0 * base::unit_vector({Azimuth::degrees(310), Dip::degrees(55)}))
            .norm(),
        1e-10);
    for (const SourceKind kind :
         {SourceKind::start_azimuth, SourceKind::start_dip, SourceKind::lift_rate, SourceKind::swing_rate,
          SourceKind::lift_wander, SourceKind::swing_wander, SourceKind::collar_east, SourceKind::depth_scale})
        EXPECT_NE(source_of(path, kind), nullptr);
    EXPECT_EQ(source_of(path, SourceKind::azimuth_common), nullptr);
    // rate x run^2/2, upwards: with the usual 2.5 degrees in 100 m, 8.7 m at 200 m
    const double lift = source_of(path, SourceKind::lift_rate)->sd;
    EXPECT_NEAR(lift, base::Angle::degrees(0.025).radians(), 1e-12);
    for (const SourceEffect& effect : effects_at(path, 200)) {
        if (effect.source.id.kind == SourceKind::lift_rate) {
            EXPECT_NEAR(effect.displacement.norm(), 20000.0, 1e-6);
            EXPECT_GT(effect.displacement.z(), 0.0);
        }
        if (effect.source.id.kind == SourceKind::swing_rate) {
            EXPECT_NEAR(effect.displacement.dot(Vector3d(base::Angle::degrees(40).sin(), base::Angle::degrees(40).cos(), 0.0)),
                        20000.0,
                        1e-6);  // right of 310 is 040
        }
    }
}

TEST(Locate, AHoleWithoutAPlanIsAimedAtItsTarget) {
    tables::Records records;
    records.collars = {collar_named("N-1", 200, {100, 200, 300})};
    records.collars[0].status = HoleStatus::planned;
    records.collars[0].target = tables::Target{"T", "", Vector3d(100, 300, 200), 5.0};
    const auto located = locate(records, {});
    EXPECT_EQ(count_of(located.findings, "aimed-at-target"), 1U);
    EXPECT_LT((position_at(located.value[0], std::sqrt(2e4)) - Vector3d(100, 300, 200)).norm(), 1e-9);
}

TEST(Locate, AHoleWithNothingIsNamedAndLeftOut) {
    tables::Records records = one_hole({{0, 40, 60}, {60, 44, 58}}, 80);
    records.collars.insert(records.collars.begin(), collar_named("B-1", 100));
    const auto located = locate(records, {});
    ASSERT_EQ(located.value.size(), 1U);
    EXPECT_EQ(located.value[0].number, 1U);
    EXPECT_EQ(count_of(located.findings, "hole-without-direction"), 1U);
    EXPECT_EQ(path_of(located.value, "B-1"), nullptr);
    EXPECT_EQ(path_of(located.value, "A-1"), &located.value[0]);
    const PathIndex index(located.value);
    EXPECT_EQ(index.find("A-1"), &located.value[0]);
    EXPECT_EQ(index.find("B-1"), nullptr);
}

TEST(Locate, ADaughterLeavesItsParentAtTheKickoff) {
    const auto located = locate(parent_and_daughter(), {});
    ASSERT_EQ(located.value.size(), 2U);
    const Path &daughter = located.value[0], &parent = located.value[1];
    EXPECT_EQ(daughter.start_depth, 95.0);
    EXPECT_EQ(daughter.parent, 1U);
    EXPECT_LT((position_at(daughter, 95) - position_at(parent, 95)).norm(), 1e-12);
    EXPECT_LT((direction_at(daughter, 95) - direction_at(parent, 95)).norm(), 1e-12);
    EXPECT_NEAR(azimuth_at(daughter, 150), 44.0, 1e-9);
    EXPECT_TRUE(located.findings.empty());
}

TEST(Locate, ADaughterSharesItsParentsErrorsAboveTheKickoffAndDrawsItsOwnBelow) {
    const auto located = locate(parent_and_daughter(), {});
    const Path &daughter = located.value[0], &parent = located.value[1];
    const Vector3d kick = position_at(parent, 95), point = position_at(daughter, 180);
    const Vector3d zenith = Vector3d::UnitZ();
    for (const SourceEffect& effect : effects_at(daughter, 180)) {
        if (effect.source.id == SourceId{SourceKind::azimuth_hole, 1, 0}) {
            EXPECT_LT((effect.displacement - zenith.cross(kick - parent.collar)).norm(), 1e-9);
            EXPECT_EQ(effect.rotation.norm(), 0.0);
        }
        if (effect.source.id == SourceId{SourceKind::azimuth_hole, 0, 0}) {
            EXPECT_LT((effect.displacement - zenith.cross(point - kick)).norm(), 1e-9);
        }
        if (effect.source.id.kind == SourceKind::azimuth_common) {
            EXPECT_LT((effect.displacement - zenith.cross(point - parent.collar)).norm(), 1e-9);
            EXPECT_LT((effect.rotation - zenith).norm(), 1e-12);
        }
        if (effect.source.id.kind == SourceKind::depth_scale) {
            EXPECT_EQ(effect.source.id.owner, 1);
            EXPECT_LT((effect.displacement - (point - parent.collar)).norm(), 1e-12);
        }
        if (effect.source.id.kind == SourceKind::collar_east) {
            EXPECT_EQ(effect.source.id.owner, 1);
        }
    }
    // A centimetre past the kick-off the two are as good as one: their covariance is that of either.
    EXPECT_LT((covariance_between(daughter, 95.01, parent, 95.01) - covariance_at(parent, 95.01)).norm(), 1e-3);
}

TEST(Locate, RowsOfADaughterAboveItsKickoffMustBeItsParents) {
    tables::Records records = parent_and_daughter();
    add_surveys(records, "A-1W", {{0, 40, 60}, {50, 42, 59}});
    auto located = locate(records, {});
    EXPECT_TRUE(located.findings.empty());
    EXPECT_EQ(located.value[0].stations.size(), 4U);
    records.surveys.back().dip = Dip::degrees(62);
    located = locate(records, {});
    EXPECT_EQ(count_of(located.findings, "daughter-survey-differs"), 1U);
    EXPECT_EQ(located.value[0].stations.size(), 4U);
}

TEST(Locate, DaughtersOfDaughtersInAnyOrder) {
    tables::Records records = parent_and_daughter();
    records.collars.insert(records.collars.begin(), collar_named("A-1WW", 210));
    records.collars[0].parent = "A-1W";
    records.collars[0].kickoff = 160.0;
    add_surveys(records, "A-1WW", {{180, 47, 53}, {205, 48, 52}});
    const auto located = locate(records, {});
    ASSERT_EQ(located.value.size(), 3U);
    EXPECT_LT((position_at(located.value[0], 160) - position_at(located.value[1], 160)).norm(), 1e-12);
    EXPECT_NEAR(azimuth_at(located.value[0], 205), 48.0, 1e-9);
}

TEST(Locate, AKickoffAboveTheParentsOwnLeavesTheGrandparent) {
    tables::Records records = parent_and_daughter();
    records.collars.push_back(collar_named("A-1WW", 210));
    records.collars[2].parent = "A-1W";
    records.collars[2].kickoff = 60.0;
    records.collars[2].status = HoleStatus::planned;
    const auto located = locate(records, {});
    EXPECT_LT((position_at(located.value[2], 60) - position_at(located.value[1], 60)).norm(), 1e-12);
}

TEST(Locate, ImpossibleParentsAreNamed) {
    tables::Records records = one_hole({{0, 40, 60}, {60, 44, 58}}, 80);
    for (const char* name : {"B", "C", "D", "E"}) records.collars.push_back(collar_named(name, 100));
    records.collars[1].parent = "nobody";
    records.collars[2].parent = "D";
    records.collars[2].kickoff = 20.0;
    records.collars[3].parent = "C";
    records.collars[3].kickoff = 20.0;
    records.collars[4].parent = "A-1";
    const auto located = locate(records, {});
    EXPECT_EQ(located.value.size(), 1U);
    EXPECT_EQ(count_of(located.findings, "parent-not-placed"), 3U);
    EXPECT_EQ(count_of(located.findings, "daughter-without-kickoff"), 1U);
}

TEST(Locate, APlannedDaughterGoesOnAsItsParentOrAsPlanned) {
    tables::Records records = parent_and_daughter();
    records.surveys.erase(records.surveys.begin() + 4, records.surveys.end());
    records.collars[0].status = HoleStatus::planned;
    auto located = locate(records, {});
    EXPECT_LT((located.value[0].stations[0].tangent - direction_at(located.value[1], located.value[0].start_depth)).norm(),
              1e-12);
    // The parent's azimuth error turns what goes on in its direction.
    for (const SourceEffect& effect : effects_at(located.value[0], 150)) {
        if (!(effect.source.id == SourceId{SourceKind::azimuth_hole, 1, 0})) continue;
        EXPECT_LT((effect.displacement - Vector3d::UnitZ().cross(position_at(located.value[0], 150))).norm(), 1e-9);
    }
    records.collars[0].azimuth = Azimuth::degrees(60);
    records.collars[0].dip = Dip::degrees(50);
    located = locate(records, {});
    EXPECT_NEAR(azimuth_at(located.value[0], located.value[0].start_depth), 60.0, 1e-9);
}

TEST(Locate, DipOnlyRowsTakeTheAzimuthBetweenTheirNeighbours) {
    tables::Records records = one_hole({{0, 350, 60}, {30, 0, 59}, {60, 10, 58}}, 80);
    records.surveys[1].azimuth.reset();
    const auto located = locate(records, {});
    const Path& path = located.value[0];
    EXPECT_NEAR(azimuth_at(path, 30), 0.0, 1e-9);
    EXPECT_NEAR(dip_at(path, 30), 59.0, 1e-9);
    EXPECT_GT(source_of(path, SourceKind::azimuth_station, 1)->sd, source_of(path, SourceKind::azimuth_station, 0)->sd);
    EXPECT_EQ(count_of(located.findings, "azimuth-from-neighbours"), 1U);
}

TEST(Locate, AHoleWithDipsAloneKeepsThePlannedAzimuth) {
    tables::Records records = one_hole({{0, 0, 60}, {100, 0, 55}, {200, 0, 50}}, 220);
    for (tables::Survey& survey : records.surveys) survey.azimuth.reset();
    EXPECT_EQ(count_of(locate(records, {}).findings, "hole-without-direction"), 1U);
    records.collars[0].azimuth = Azimuth::degrees(75);
    const auto located = locate(records, {});
    const Path& path = located.value[0];
    EXPECT_NEAR(azimuth_at(path, 150), 75.0, 1e-9);
    EXPECT_NEAR(dip_at(path, 200), 50.0, 1e-9);
    EXPECT_EQ(source_of(path, SourceKind::azimuth_hole), nullptr);
    EXPECT_NE(source_of(path, SourceKind::start_azimuth), nullptr);
    EXPECT_EQ(source_of(path, SourceKind::start_dip), nullptr);
    EXPECT_EQ(count_of(located.findings, "azimuth-not-measured"), 1U);
    for (const SourceEffect& effect : effects_at(path, 200)) {
        if (effect.source.id.kind == SourceKind::swing_rate) {
            EXPECT_NEAR(effect.displacement.norm(), 20000.0, 1e-6);
        }
        if (effect.source.id.kind == SourceKind::lift_rate) {
            EXPECT_EQ(effect.displacement.norm(), 0.0);
        }
    }
}

TEST(Locate, OtherRunsAreComparedWithTheOneThatIsUsed) {
    tables::Records records = one_hole({{0, 40, 0}, {100, 40, 0}}, 100);
    for (tables::Survey& survey : records.surveys) survey.method = "gyro";
    add_surveys(records, "A-1", {{0, 41, 0}, {100, 41, 0}}, "single shot");
    PathSettings settings;
    settings.survey_preference = {"gyro"};
    auto located = locate(records, settings);
    EXPECT_NEAR(azimuth_at(located.value[0], 100), 40.0, 1e-9);
    ASSERT_EQ(count_of(located.findings, "survey-runs-compared"), 1U);
    EXPECT_NE(located.findings[0].message.find("gyro is used; single shot lies up to 1.75 m from it, at 100.0 m"),
              std::string::npos)
        << located.findings[0].message;
    for (std::size_t i = 2; i < 4; ++i) records.surveys[i].azimuth = Azimuth::degrees(55);
    located = locate(records, settings);
    EXPECT_EQ(count_of(located.findings, "survey-runs-disagree"), 1U);
}

TEST(Locate, CollarErrorsOfARowWinOverTheProjects) {
    tables::Records records = one_hole({{0, 40, 60}, {60, 44, 58}}, 80);
    PathSettings settings;
    settings.survey_errors.collar = 0.4;
    EXPECT_NEAR(covariance_at(locate(records, settings).value[0], 0.0)(2, 2), 0.16, 1e-12);
    records.collars[0].collar_sd = 0.1;
    EXPECT_NEAR(covariance_at(locate(records, settings).value[0], 0.0)(2, 2), 0.01, 1e-12);
    records.collars[0].elevation_sd = 0.2;
    const Eigen::Matrix3d covariance = covariance_at(locate(records, settings).value[0], 0.0);
    EXPECT_NEAR(covariance(0, 0), 0.01, 1e-12);
    EXPECT_NEAR(covariance(2, 2), 0.04, 1e-12);
}

TEST(Locate, SourcesAreInTheOrderOfTheirIds) {
    for (const Path& path : locate(parent_and_daughter(), {}).value) {
        const auto effects = effects_at(path, 190);
        for (std::size_t i = 1; i < effects.size(); ++i) EXPECT_TRUE(effects[i - 1].source.id < effects[i].source.id);
    }
}

}  // namespace
}  // namespace selvage::paths
