#include "veins/surface_budget.h"

#include "veins/surface_model.h"

#include <gtest/gtest.h>

#include <cmath>

namespace selvage::veins {
namespace {

paths::ErrorSource error_of(paths::SourceKind kind, int owner, double sd) {
    return {{kind, owner, 0}, owner == 0 ? paths::Scope::project : paths::Scope::hole, sd};
}

// Eight holes of a fan with a common azimuth error and one of each hole's own, half of them oriented.
std::vector<SurfaceDatum> fan() {
    std::vector<SurfaceDatum> data;
    for (int i = 0; i < 8; ++i) {
        SurfaceDatum datum;
        datum.hole = "K-" + std::to_string(i);
        datum.place = {45.0 * (i % 4) + 3.0 * i, 50.0 * (i / 4)};
        datum.height = 2.0 * std::sin(0.02 * datum.place.x()) + 0.01 * datum.place.y();
        datum.scaled_variance = 0.15 * 0.15;
        if (i % 2 == 0) datum.normal = Eigen::Vector3d(0.02 * i - 0.05, 0.03, 1.0).normalized();
        const Eigen::Vector3d lever(0.0, 4.0, 30.0 + 15.0 * i);
        datum.effects.push_back({error_of(paths::SourceKind::azimuth_common, 0, 0.005), lever, {0.1, 0.9, 0.2}});
        datum.effects.push_back({error_of(paths::SourceKind::azimuth_hole, i + 1, 0.02), lever, {0.1, 0.9, 0.2}});
        data.push_back(datum);
    }
    return data;
}

// A new hole from another pad, one spacing out, with errors and a deviation of its own.
PathPoint new_hole() {
    PathPoint point;
    point.chart_point = {230.0, 60.0, 1.0};
    point.slope_row = {0.05, -0.02, 1.0};
    point.effects.push_back(
        {error_of(paths::SourceKind::azimuth_common, 0, 0.005), {0.0, -10.0, -80.0}, Eigen::Vector3d::Zero()});
    point.effects.push_back({error_of(paths::SourceKind::azimuth_hole, 20, 0.02), {0.0, -10.0, -80.0}, Eigen::Vector3d::Zero()});
    point.effects.push_back({error_of(paths::SourceKind::lift_rate, 20, 0.001), {5.0, 0.0, 900.0}, Eigen::Vector3d::Zero()});
    return point;
}

TEST(SurfaceBudget, ThePartsAddUpToTheForecastsVariance) {
    const auto model = fit_surface(fan(), 50.0, SurfaceRules{true});
    const PathPoint point = new_hole();
    const SurfaceBudget budget = budget_over_path(*model, point);
    const double variance = height_over_path(*model, point.chart_point, point.slope_row, point.effects).variance();
    EXPECT_NEAR(budget.total(), variance, 1e-9 * variance);
    EXPECT_GT(budget.shape, 0.0);
    EXPECT_GT(budget.picks, 0.0);
    EXPECT_GT(budget.core, 0.0);
    EXPECT_NEAR(budget.deviation, std::pow(0.001 * (900.0 + 0.05 * 5.0), 2), 1e-9);
    EXPECT_GE(budget.settings, 0.0);
    EXPECT_EQ(budget.sources.size(), 10u);  // the common one, eight holes', the new hole's
    for (const auto& [id, part] : budget.sources) EXPECT_GE(part, 0.0);
}

TEST(SurfaceBudget, ABetterSurveyTakesItsPartAway) {
    const auto model = fit_surface(fan(), 50.0, SurfaceRules{true});
    const PathPoint point = new_hole();
    const double now = budget_over_path(*model, point).total();
    EXPECT_NEAR(variance_with(*model, point, {}), now, 1e-9 * now);
    std::map<paths::SourceId, double> better{{error_of(paths::SourceKind::azimuth_hole, 20, 0.0).id, 0.0}};
    const double own_part = budget_over_path(*model, point).sources.at(better.begin()->first);
    EXPECT_NEAR(variance_with(*model, point, better), now - own_part, 1e-6 * now);  // no datum shares it
    better = {{error_of(paths::SourceKind::azimuth_hole, 4, 0.0).id, 0.001}};
    EXPECT_LT(variance_with(*model, point, better), now);
}

// A slope measured at a hole by a fit with that row added: the same nodes.
TEST(SurfaceBudget, OrientedCoreIsWorthWhatAFitWithItGives) {
    const auto model = fit_surface(fan(), 50.0, SurfaceRules{true});
    const PathPoint point = new_hole();
    const double with_core = variances_with_core_at(*model, point, {{140.0, 50.0}}).front();
    EXPECT_LT(with_core, budget_over_path(*model, point).total());
    EXPECT_GT(with_core, 0.5 * budget_over_path(*model, point).total());
}

}  // namespace
}  // namespace selvage::veins
