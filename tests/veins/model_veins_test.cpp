#include "veins/vein.h"

#include "base/parallel.h"
#include "vein_scene.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

namespace selvage::veins {
namespace {

bool all_finite(const Vein& vein, const Scene& scene) {
    const VeinSummary& s = vein.summary();
    bool good = std::isfinite(s.area) && std::isfinite(s.range) && std::isfinite(s.residual_rms) &&
                std::isfinite(s.thickness_median) && std::isfinite(s.attitude.dip.degrees()) && std::isfinite(s.hole_spacing);
    for (const FitRow& row : vein.fit()) good = good && std::isfinite(row.predicted_depth) && row.depth_p90 > row.depth_p10;
    for (const EdgeLine& edge : vein.edges()) {
        for (const Eigen::Vector3d& point : edge.points) good = good && point.allFinite();
    }
    for (const Eigen::Vector2d& place :
         {Eigen::Vector2d(0.0, 0.0), Eigen::Vector2d(60.0, 90.0), Eigen::Vector2d(400.0, -300.0)}) {
        const AtPoint there = vein.at(scene.chart.world_from_chart({place.x(), place.y(), 5.0}));
        good = good && there.on_vein.allFinite() && there.normal.allFinite() && std::isfinite(there.normal_sd.degrees()) &&
               there.presence > 0.0 && there.presence < 1.0 && std::isfinite(there.height.quantile(0.9));
    }
    for (const TracePoint& point : vein.trace({scene.chart.centre, scene.chart.u()}, 200.0, 10.0)) {
        good = good && point.mid.allFinite() && point.hanging.allFinite() && point.low80.allFinite() && std::isfinite(point.sd);
    }
    return good;
}

TEST(ModelVeins, TwelveHolesTellTheVein) {
    Scene scene;
    scene.lattice(3, 4);
    const auto checked = scene.model_with_findings();
    ASSERT_EQ(checked.value.size(), 1u);
    for (const base::Finding& finding : checked.findings) ADD_FAILURE() << base::line_of(finding);
    const Vein& vein = checked.value[0];
    const VeinSummary& summary = vein.summary();
    EXPECT_EQ(summary.intercepts, 12u);
    EXPECT_EQ(summary.oriented, 12u);
    EXPECT_FALSE(summary.prior_only);
    EXPECT_NEAR(summary.attitude.dip.degrees(), 70.0, 3.0);
    EXPECT_NEAR(summary.attitude.dip_direction.degrees(), 60.0, 4.0);
    EXPECT_NEAR(summary.hole_spacing, 50.0, 12.0);
    EXPECT_EQ(summary.step_out, 2.0 * summary.hole_spacing);
    EXPECT_NEAR(summary.thickness_median, 0.8, 0.35);
    // Twelve of twelve must not be right to the millimetre, nor off by more than the surface's own relief.
    EXPECT_LT(summary.residual_rms, 4.0);
    EXPECT_GE(summary.coverage80, 0.5);
    EXPECT_TRUE(all_finite(vein, scene));
    // Inside, the truth lies within the 99 % range, and near.
    for (const Eigen::Vector2d& place : {Eigen::Vector2d(25.0, 25.0), Eigen::Vector2d(75.0, 120.0)}) {
        const Eigen::Vector3d truth = scene.chart.world_from_chart({place.x(), place.y(), scene.height(place)});
        const AtPoint there = vein.at(truth);
        EXPECT_GT(there.height.quantile(0.995), 0.0);
        EXPECT_LT(there.height.quantile(0.005), 0.0);
        EXPECT_TRUE(there.within_extent);
    }
}

TEST(ModelVeins, AreaIsThatOfTheExtentOnTheVein) {
    Scene scene;
    scene.height = [](const Eigen::Vector2d&) { return 0.0; };
    scene.records.collars.clear();
    scene.hit("A", {0.0, 0.0}, 60.0, 30.0);
    scene.records.collars.clear();  // no ground
    scene.settings.plan.step_out = 80.0;
    const auto veins = scene.model();
    ASSERT_EQ(veins.size(), 1u);
    EXPECT_NEAR(veins[0].summary().area, std::acos(-1.0) * 6400.0, 100.0);
    ASSERT_EQ(veins[0].edges().size(), 1u);
    EXPECT_EQ(veins[0].edges()[0].reason, EdgeReason::extrapolation_distance);
    EXPECT_TRUE(veins[0].summary().prior_only);
}

// Rounding differs, and the search for likely parameters ends a little elsewhere: millimetres.
TEST(ModelVeins, ResultsTurnWithTheWorld) {
    Scene scene;
    scene.lattice(3, 3);
    const Scene turned = scene.turned(37.0);
    const auto a = scene.model(), b = const_cast<Scene&>(turned).model();
    EXPECT_NEAR(a[0].summary().area, b[0].summary().area, 1e-3 * a[0].summary().area);
    EXPECT_NEAR(a[0].summary().attitude.dip.degrees(), b[0].summary().attitude.dip.degrees(), 1e-3);
    EXPECT_NEAR(a[0].summary().attitude.dip_direction.degrees() - 37.0, b[0].summary().attitude.dip_direction.degrees(), 1e-3);
    for (std::size_t i = 0; i < a[0].fit().size(); ++i) {
        EXPECT_NEAR(a[0].fit()[i].predicted_depth, b[0].fit()[i].predicted_depth, 0.01);
        EXPECT_NEAR(a[0].fit()[i].depth_p90, b[0].fit()[i].depth_p90, 0.01);
    }
}

TEST(ModelVeins, OrderOfHolesLeavesNoTrace) {
    Scene scene;
    scene.lattice(3, 3);
    Scene other = scene;
    std::reverse(other.intercepts.met.begin(), other.intercepts.met.end());
    const auto a = scene.model(), b = other.model();
    const Eigen::Vector3d point = scene.chart.world_from_chart({130.0, 60.0, 0.0});
    EXPECT_NEAR(a[0].at(point).height.quantile(0.9), b[0].at(point).height.quantile(0.9), 1e-6);
    EXPECT_NEAR(a[0].at(point).content.log_thickness.quantile(0.1), b[0].at(point).content.log_thickness.quantile(0.1), 1e-6);
    EXPECT_NEAR(a[0].summary().area, b[0].summary().area, 1e-6 * a[0].summary().area);
}

TEST(ModelVeins, OneAndTwoThreadsGiveTheSameBytes) {
    Scene scene;
    scene.lattice(3, 3);
    scene.hole("M-1", {75.0, 75.0}, 60.0, 20.0);
    base::set_jobs(1);
    const auto a = scene.model();
    base::set_jobs(0);
    const auto b = scene.model();
    EXPECT_EQ(a[0].summary().area, b[0].summary().area);
    EXPECT_EQ(a[0].no_vein()[0].depth, b[0].no_vein()[0].depth);
    EXPECT_EQ(a[0].fit()[3].predicted_depth, b[0].fit()[3].predicted_depth);
}

TEST(ModelVeins, WithoutAnyDataIsAWarningAndNoModel) {
    Scene scene;
    const auto checked = scene.model_with_findings();
    EXPECT_TRUE(checked.value.empty());
    EXPECT_EQ(count_of(checked.findings, "vein-without-data"), 1u);
}

TEST(ModelVeins, OneFenceWithoutAttitudesAsksForThem) {
    Scene scene;
    for (int i = 0; i < 5; ++i) scene.hit(fmt::format("F-{}", i), {0.0, 50.0 * i}, 60.0, 90.0, false);
    const auto checked = scene.model_with_findings();
    EXPECT_TRUE(checked.value.empty());
    EXPECT_EQ(count_of(checked.findings, "vein-attitude-unknown"), 1u);
    // With them there is a model.
    scene.settings.veins[0].dip = base::Angle::degrees(70);
    scene.settings.veins[0].dip_direction = base::Azimuth::degrees(60);
    const auto stated = scene.model();
    ASSERT_EQ(stated.size(), 1u);
    EXPECT_TRUE(all_finite(stated[0], scene));
}

TEST(ModelVeins, OneFenceWithNormalsHasAModel) {
    Scene scene;
    for (int i = 0; i < 5; ++i) scene.hit(fmt::format("F-{}", i), {0.0, 50.0 * i}, 60.0, 90.0);
    const auto veins = scene.model();
    ASSERT_EQ(veins.size(), 1u);
    EXPECT_TRUE(all_finite(veins[0], scene));
    EXPECT_NEAR(veins[0].summary().attitude.dip.degrees(), 70.0, 5.0);
}

TEST(ModelVeins, OneAndTwoOrientedHolesArePriorOnly) {
    Scene scene;
    scene.hit("A", {0.0, 0.0}, 60.0, 30.0);
    auto checked = scene.model_with_findings();
    ASSERT_EQ(checked.value.size(), 1u);
    EXPECT_EQ(count_of(checked.findings, "prior-only"), 1u);
    EXPECT_TRUE(checked.value[0].summary().prior_only);
    EXPECT_TRUE(all_finite(checked.value[0], scene));
    scene.hit("B", {45.0, 20.0}, 50.0, 200.0);
    checked = scene.model_with_findings();
    ASSERT_EQ(checked.value.size(), 1u);
    EXPECT_EQ(count_of(checked.findings, "prior-only"), 1u);
    EXPECT_TRUE(all_finite(checked.value[0], scene));
}

TEST(ModelVeins, AStatedPlaneAloneHasAModel) {
    Scene scene;
    scene.settings.veins[0].point = scene.chart.centre;
    scene.settings.veins[0].dip = base::Angle::degrees(70);
    scene.settings.veins[0].dip_direction = base::Azimuth::degrees(60);
    const auto veins = scene.model();
    ASSERT_EQ(veins.size(), 1u);
    EXPECT_TRUE(all_finite(veins[0], scene));
    EXPECT_EQ(veins[0].summary().intercepts, 0u);
    EXPECT_NEAR(veins[0].summary().attitude.dip.degrees(), 70.0, 0.01);
    EXPECT_EQ(veins[0].summary().hole_spacing, 50.0);
    EXPECT_FALSE(veins[0].edges().empty());
    EXPECT_TRUE(veins[0].at(scene.chart.centre).content.log_thickness.empty());
}

TEST(ModelVeins, OutcropsAloneHaveAModelAndSaySo) {
    Scene scene;
    for (int i = 0; i < 3; ++i) {
        tables::Outcrop outcrop;
        outcrop.vein = "North";
        outcrop.position = scene.chart.world_from_chart({40.0 * i, 0.0, 0.0});
        outcrop.attitude = base::attitude_of_normal(scene.chart.w());
        outcrop.thickness = 0.7;
        scene.records.outcrops.push_back(outcrop);
    }
    const auto checked = scene.model_with_findings();
    ASSERT_EQ(checked.value.size(), 1u);
    EXPECT_EQ(count_of(checked.findings, "outcrops-over-half"), 1u);
    EXPECT_NEAR(std::exp(checked.value[0].at(scene.chart.centre).content.log_thickness.quantile(0.5)), 0.7, 0.15);
}

TEST(ModelVeins, TwinHolesThatAgreeAreNothingSpecial) {
    Scene scene;
    scene.lattice(3, 3);
    scene.hit("T", {52.0, 50.0}, 60.0, 100.0);
    const auto checked = scene.model_with_findings();
    EXPECT_EQ(count_of(checked.findings, "contacts-disagree"), 0u);
    EXPECT_TRUE(all_finite(checked.value[0], scene));
}

TEST(ModelVeins, TwinHolesThatDisagreeAreNamed) {
    Scene scene;
    scene.lattice(3, 3);
    const auto honest = scene.height;
    const Eigen::Vector2d place =
        scene.chart.chart_from_world(scene.intercepts.met[4].point).head<2>() + Eigen::Vector2d(2.0, 0.0);
    scene.height = [&](const Eigen::Vector2d& x) { return honest(x) + 6.0; };
    scene.hit("T", place, 80.0, 100.0);
    const auto checked = scene.model_with_findings();
    ASSERT_EQ(checked.value.size(), 1u);
    EXPECT_EQ(count_of(checked.findings, "contacts-disagree"), 1u);
    EXPECT_TRUE(all_finite(checked.value[0], scene));
}

TEST(ModelVeins, TheSamePlaceTwiceIsOneDatum) {
    Scene scene;
    scene.lattice(3, 3);
    Scene twice = scene;
    twice.intercepts.met.push_back(twice.intercepts.met[4]);
    EXPECT_EQ(twice.model()[0].summary().intercepts, 9u);
}

TEST(ModelVeins, AMissedPickIsNamedAsDoubtful) {
    Scene scene;
    scene.height = [](const Eigen::Vector2d& x) { return std::sin(x.x() / 60.0); };
    scene.lattice(4, 4);
    intercepts::Intercept& wrong = scene.intercepts.met[5];
    wrong.from += 25.0;
    wrong.to += 25.0;
    wrong.point = paths::position_at(scene.paths[5], wrong.middle());
    const auto checked = scene.model_with_findings();
    ASSERT_GE(count_of(checked.findings, "doubtful-intercept"), 1u);
    const auto named = std::find_if(checked.findings.begin(), checked.findings.end(),
                                    [](const base::Finding& f) { return f.check->id == std::string("doubtful-intercept"); });
    EXPECT_EQ(named->hole, wrong.hole);
    EXPECT_LT(checked.value[0].fit()[5].two_sided_probability, 0.01);
}

// Closed form against a model of the other holes alone, base plane and hole spacing found anew too.
TEST(ModelVeins, FitIsWhatTheOtherHolesForetell) {
    Scene scene;
    scene.lattice(3, 4);
    const auto veins = scene.model();
    for (const std::size_t left : {2u, 5u, 9u}) {
        Scene others = scene;
        others.intercepts.met.erase(others.intercepts.met.begin() + static_cast<std::ptrdiff_t>(left));
        const paths::Path& path = scene.paths[left];
        const auto model = others.model();
        const Crossing curve = model[0].crossings(path).at(0);
        const FitRow& row = veins[0].fit()[left];
        EXPECT_NEAR(row.predicted_depth, curve.depth_at(0.5), 0.35 * row.depth_sd) << row.hole;
        EXPECT_NEAR(row.depth_p90 - row.depth_p10, curve.depth_at(0.9) - curve.depth_at(0.1),
                    0.35 * (row.depth_p90 - row.depth_p10));
    }
}

TEST(ModelVeins, AVeinThatTurnsOverIsReported) {
    Scene scene;
    scene.lattice(3, 3);
    scene.intercepts.met[4].core_normal = scene.chart.u();
    const auto checked = scene.model_with_findings();
    EXPECT_EQ(count_of(checked.findings, "vein-turns"), 1u);
    EXPECT_EQ(checked.value[0].summary().oriented, 8u);
}

TEST(ModelVeins, OnlyStructuresHaveAPlaceButNoVein) {
    Scene scene;
    scene.lattice(3, 3);
    for (intercepts::Intercept& met : scene.intercepts.met) {
        met.state = tables::PickState::structure;
        met.to = met.from + 0.01;
        met.point = paths::position_at(scene.paths[static_cast<std::size_t>(&met - scene.intercepts.met.data())], met.middle());
    }
    const auto veins = scene.model();
    ASSERT_EQ(veins.size(), 1u);
    const AtPoint there = veins[0].at(scene.chart.world_from_chart({50.0, 50.0, 0.0}));
    EXPECT_TRUE(there.content.log_thickness.empty());
    EXPECT_LT(there.presence, 0.1);
    EXPECT_FALSE(there.within_extent);
    EXPECT_TRUE(veins[0].edges().empty());
    EXPECT_TRUE(std::isfinite(veins[0].summary().attitude.dip.degrees()));
}

TEST(ModelVeins, VoidsAndLostCoreTellThePlaceNotTheThickness) {
    Scene scene;
    scene.lattice(3, 3);
    scene.intercepts.met[0].state = tables::PickState::open_void;
    scene.intercepts.met[1].state = tables::PickState::lost;
    const auto veins = scene.model();
    const auto& fit = veins[0].fit();
    ASSERT_EQ(fit.size(), 9u);
    EXPECT_FALSE(fit[0].actual_thickness);
    EXPECT_FALSE(fit[1].actual_thickness);
    EXPECT_TRUE(fit[2].actual_thickness);
}

TEST(ModelVeins, PossiblePicksAreNotModelled) {
    Scene scene;
    scene.lattice(3, 3);
    scene.intercepts.met[3].certainty = 3;
    const auto veins = scene.model();
    EXPECT_EQ(veins[0].summary().intercepts, 8u);
    EXPECT_TRUE(veins[0].no_vein().empty());
}

TEST(ModelVeins, GradesAreModelledGivenThatTheVeinIsThere) {
    Scene scene;
    scene.lattice(3, 3);
    scene.settings.modelled_analytes = {1, 0};
    for (intercepts::Intercept& met : scene.intercepts.met) met.grades = {std::nullopt, intercepts::Grade{400.0, false, false}};
    scene.intercepts.met[2].grades[1]->value = 0.0;  // stands for half of the least
    const auto veins = scene.model();
    const AtPoint there = veins[0].at(scene.chart.world_from_chart({50.0, 50.0, 0.0}));
    ASSERT_EQ(there.content.log_grades.size(), 2u);
    EXPECT_TRUE(there.content.log_grades[1].empty());
    EXPECT_NEAR(std::exp(there.content.log_grades[0].quantile(0.5)), 400.0, 60.0);
}

TEST(Trace, LiesInItsPlaneAndHasItsWallsInOrder) {
    Scene scene;
    scene.lattice(3, 4);
    const auto veins = scene.model();
    const base::Plane plane{scene.chart.world_from_chart({55.0, 70.0, 0.0}),
                            (scene.chart.u() + 0.4 * scene.chart.v() + 0.3 * scene.chart.w()).normalized()};
    const auto trace = veins[0].trace(plane, 150.0, 5.0);
    ASSERT_GT(trace.size(), 30u);
    bool seen_inside = false;
    for (const TracePoint& point : trace) {
        for (const Eigen::Vector3d& p : {point.mid, point.hanging, point.foot, point.low80, point.high80}) {
            EXPECT_NEAR(base::signed_distance(plane, p), 0.0, 1e-6);
        }
        const Eigen::Vector3d w = veins[0].mean_plane().normal;
        EXPECT_GT((point.hanging - point.foot).dot(w), 0.0);
        EXPECT_GT((point.high80 - point.low80).dot(w), 0.0);
        EXPECT_GT(point.sd, 0.0);
        seen_inside = seen_inside || point.within_extent;
    }
    EXPECT_TRUE(seen_inside);
    EXPECT_TRUE(veins[0].trace({plane.point, veins[0].mean_plane().normal}, 150.0, 5.0).empty());
}

// A vein that fits its holes: the truth is where the model says, so each hole's alpha too.
TEST(AlphaTests, PredictTheAngleOfAPlaneVein) {
    Scene scene;
    scene.height = [](const Eigen::Vector2d&) { return 0.0; };
    scene.lattice(3, 3);
    std::vector<orientation::Orientation> rows;
    const intercepts::Intercept& met = scene.intercepts.met[4];
    const double sine = std::abs(met.hole_direction.dot(scene.chart.w()));
    auto row = test::contact(met.hole, met.from, "", std::nullopt, base::Angle::radians(std::asin(sine)));
    row.position = met.point;
    rows.push_back(row);
    row.kind = "joint";
    rows.push_back(row);
    row.kind = "contact";
    row.depth = met.to + 3.0;  // nobody's
    rows.push_back(row);
    const auto tests = alpha_tests(rows, scene.intercepts, scene.paths, scene.model(), settings::CoreAngles());
    ASSERT_EQ(tests.size(), 1u);
    EXPECT_EQ(tests[0].vein, "North");
    EXPECT_NEAR(tests[0].predicted.degrees(), tests[0].alpha.degrees(), 2.0);
    EXPECT_GT(tests[0].sd.degrees(), 2.0) << "core is measured no better, with the small waves of a wall";
    EXPECT_LT(tests[0].sd.degrees(), 12.0);
}

TEST(TrueThickness, IsByTheModelFromThreeInterceptsOn) {
    Scene scene;
    scene.height = [](const Eigen::Vector2d&) { return 0.0; };
    scene.lattice(2, 2, false);
    auto met = completed_by_models(scene.intercepts.met, scene.model(), {});
    for (const intercepts::Intercept& one : met) {
        EXPECT_EQ(one.thickness_from, intercepts::ThicknessSource::model);
        EXPECT_NEAR(*one.true_thickness, one.length() * std::abs(one.hole_direction.dot(scene.chart.w())), 0.1 * one.length());
    }
    Scene two;
    two.hit("A", {0.0, 0.0}, 60.0, 30.0);
    two.hit("B", {50.0, 0.0}, 60.0, 30.0);
    met = completed_by_models(two.intercepts.met, two.model(), {});
    EXPECT_NE(met[0].thickness_from, intercepts::ThicknessSource::model);
}

TEST(CompletedByModels, AnInterceptFarFromWhereTheOthersPutItIsDoubtful) {
    Scene scene;
    scene.lattice(4, 3);
    intercepts::Intercept& wrong = scene.intercepts.met[5];
    wrong.from += 40.0;
    wrong.to += 40.0;
    wrong.point += 40.0 * wrong.hole_direction;
    const auto met = completed_by_models(scene.intercepts.met, scene.model(), {});
    const auto is_doubtful = [](const intercepts::Intercept& one) {
        return std::find(one.flags.begin(), one.flags.end(), "doubtful") != one.flags.end();
    };
    EXPECT_TRUE(is_doubtful(met[5]));
    EXPECT_LE(std::count_if(met.begin(), met.end(), is_doubtful), 3);
}

}  // namespace
}  // namespace selvage::veins
