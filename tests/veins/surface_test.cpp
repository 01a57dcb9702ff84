#include "veins/surface.h"

#include "base/parallel.h"
#include "support/made_up_vein.h"
#include "veins/surface_model.h"
#include "veins/surface_neighbours.h"

#include <gtest/gtest.h>
#include <Eigen/Cholesky>
#include <Eigen/Geometry>

#include <algorithm>
#include <cmath>
#include <cstdint>

namespace selvage::veins {
namespace {

using Places = std::vector<Eigen::Vector2d>;
const Places asked{{60.0, 40.0}, {10.0, 120.0}, {210.0, -60.0}};

std::vector<SurfaceDatum> data_of(std::size_t holes, bool oriented = true) { return made_up::vein(11, holes, 2, oriented).data; }

SurfaceRows rows_of_data(const std::vector<SurfaceDatum>& data, const SurfaceRules& rules = {}) {
    return surface_rows(data, Places(data.size(), Eigen::Vector2d::Zero()), 50.0, rules);
}

paths::ErrorSource source(paths::SourceKind kind, int owner, double sd) { return {{kind, owner, 0}, paths::Scope::hole, sd}; }

TEST(Surface, GradientOfTheLikelihoodIsItsDerivative) {
    std::vector<SurfaceDatum> data = data_of(8);
    data[3].normal.reset();
    data[5].height.reset();
    data[2].effects.push_back({source(paths::SourceKind::dip_hole, 2, 0.01), {3.0, 40.0, 90.0}, {1.0, 0.0, 0.2}});
    const SurfaceRows rows = rows_of_data(data);
    Scores scores;
    scores << -0.4, 0.3, 0.8, -0.6, 0.5, -0.2;
    for (const Smoothness smoothness : {Smoothness::three_halves, Smoothness::five_halves}) {
        Scores gradient;
        const double value = log_likelihood(rows, smoothness, scores, 50.0, gradient);
        EXPECT_NEAR(value, log_likelihood(rows, smoothness, scores, 50.0), 1e-9);
        for (Eigen::Index i = 0; i < surface_scores; ++i) {
            const Scores step = 1e-5 * Scores::Unit(i);
            const double ahead = log_likelihood(rows, smoothness, scores + step, 50.0);
            const double behind = log_likelihood(rows, smoothness, scores - step, 50.0);
            EXPECT_NEAR(gradient(i), (ahead - behind) / 2e-5, 1e-5) << "score " << i;
        }
    }
}

TEST(Surface, MeanIsThatOfTheMixtureAndItsGradientTheDerivative) {
    const auto model = fit_surface(data_of(10), 50.0, {});
    for (const Eigen::Vector2d& place : asked) {
        const MeanSurface mean = mean_at(*model, place);
        EXPECT_NEAR(mean.height, height_at(*model, place).mean(), 1e-7);
        for (Eigen::Index axis = 0; axis < 2; ++axis) {
            const Eigen::Vector2d step = 1e-3 * Eigen::Vector2d::Unit(axis);
            const double slope = (mean_at(*model, place + step).height - mean_at(*model, place - step).height) / 2e-3;
            EXPECT_NEAR(mean.gradient(axis), slope, 1e-6);
        }
    }
}

// The variance of a slope is that of a small difference of heights over its length.
TEST(Surface, SlopeSdIsThatOfASmallDifferenceOfHeights) {
    const auto data = data_of(10);
    const auto model = fit_surface(data, 50.0, {});
    const Eigen::Vector2d place(60.0, 40.0);
    const Eigen::Vector2d sd = gradient_sds_at(*model, {place}).front();
    EXPECT_GT(sd.minCoeff(), 0.01);
    EXPECT_LT(sd.maxCoeff(), 0.3);
    const Eigen::Vector2d far = gradient_sds_at(*model, {{2000.0, 2000.0}}).front();
    EXPECT_GT(far.minCoeff(), sd.maxCoeff());
}

TEST(Surface, ManyPlacesGetWhatEachGetsAlone) {
    const auto model = fit_surface(data_of(10), 50.0, {});
    Places many;
    for (int i = 0; i < 70; ++i) many.emplace_back(7.0 * i, 200.0 - 5.0 * i);
    const auto together = heights_at(*model, many);
    for (std::size_t i = 0; i < many.size(); ++i) {
        const numerics::NormalMixture alone = height_at(*model, many[i]);
        EXPECT_NEAR(together[i].mean(), alone.mean(), 1e-8);
        EXPECT_NEAR(together[i].variance(), alone.variance(), 1e-7 * alone.variance() + 1e-8);
    }
}

void expect_same_heights(const SurfaceModel& a, const SurfaceModel& b, double lift, const Eigen::Vector2d& shift,
                         double tolerance) {
    for (const Eigen::Vector2d& place : asked) {
        const numerics::NormalMixture one = height_at(a, place), other = height_at(b, place + shift);
        EXPECT_NEAR(one.mean() + lift, other.mean(), tolerance);
        EXPECT_NEAR(std::sqrt(one.variance()), std::sqrt(other.variance()), tolerance);
    }
}

TEST(Surface, DoesNotDependOnTheOrderOfTheData) {
    std::vector<SurfaceDatum> data = data_of(12);
    const auto model = fit_surface(data, 50.0, {});
    std::reverse(data.begin(), data.end());
    const auto turned = fit_surface(data, 50.0, {});
    expect_same_heights(*model, *turned, 0.0, Eigen::Vector2d::Zero(), 0.0);
    EXPECT_EQ(leave_one_out_height(*model, 1).means, leave_one_out_height(*turned, 10).means);
}

TEST(Surface, GoesWithTheDataWhenTheyAreShifted) {
    std::vector<SurfaceDatum> data = data_of(12);
    const auto model = fit_surface(data, 50.0, {});
    const Eigen::Vector2d shift(1000.0, -400.0);
    for (SurfaceDatum& datum : data) datum.place += shift;
    expect_same_heights(*model, *fit_surface(data, 50.0, {}), 0.0, shift, 1e-4);
}

// A tilt or a rise of the whole vein moves the answer along, but for what the wide prior of the trend holds back.
TEST(Surface, GoesWithTheDataWhenTheyAreLifted) {
    std::vector<SurfaceDatum> data = data_of(12);
    const auto model = fit_surface(data, 50.0, {});
    for (SurfaceDatum& datum : data) *datum.height += 5.0;
    // The trend's constant has a prior sd of 100 m, which holds back lift x variance / 100^2.
    double held_back = 0.0;
    for (const Eigen::Vector2d& place : asked) held_back = std::max(held_back, 5.0 * height_at(*model, place).variance() / 1e4);
    expect_same_heights(*model, *fit_surface(data, 50.0, {}), 5.0, Eigen::Vector2d::Zero(), held_back + 0.005);
}

// Turning the data by a right angle turns the answer, but for the nodes' own angles. Against very many nodes these few err by .06
// sd (root mean square over places, measured); two such errors, with room.
TEST(Surface, GoesWithTheDataWhenTheyAreTurned) {
    const Eigen::Rotation2D<double> quarter(std::acos(0.0));
    double mean_squares = 0.0, sd_squares = 0.0, count = 0.0;
    for (std::uint64_t k = 0; k < 6; ++k) {
        made_up::Vein world = made_up::vein(11, 12, k, true);
        made_up::Places places = world.places.inside;
        places.insert(places.end(), world.places.one_out.begin(), world.places.one_out.end());
        const auto straight = heights_at(*fit_surface(world.data, 50.0, {}), places);
        for (SurfaceDatum& datum : world.data) {
            datum.place = quarter * datum.place;
            datum.normal->head<2>() = quarter * Eigen::Vector2d(datum.normal->head<2>());
        }
        for (Eigen::Vector2d& place : places) place = quarter * place;
        const auto turned = heights_at(*fit_surface(world.data, 50.0, {}), places);
        for (std::size_t i = 0; i < places.size(); ++i, ++count) {
            mean_squares += std::pow(straight[i].mean() - turned[i].mean(), 2) / straight[i].variance();
            sd_squares += std::pow(0.5 * std::log(straight[i].variance() / turned[i].variance()), 2);
        }
    }
    EXPECT_LT(std::sqrt(mean_squares / count), 0.15);
    EXPECT_LT(std::sqrt(sd_squares / count), 0.15);
}

TEST(Surface, GivesTheSameFiguresOnOneThreadAndOnMany) {
    const std::vector<SurfaceDatum> data = data_of(15);
    base::set_jobs(1);
    const numerics::NormalMixture one = height_at(*fit_surface(data, 50.0, {}), asked[0]);
    base::set_jobs(8);
    const numerics::NormalMixture many = height_at(*fit_surface(data, 50.0, {}), asked[0]);
    base::set_jobs(0);
    EXPECT_EQ(one.weights, many.weights);
    EXPECT_EQ(one.means, many.means);
    EXPECT_EQ(one.sds, many.sds);
}

TEST(Surface, OneDatumIsEnough) {
    SurfaceDatum outcrop;
    outcrop.height = 3.0;
    const auto model = fit_surface({outcrop}, 50.0, {});
    const numerics::NormalMixture near = height_at(*model, {0.0, 0.0}), far = height_at(*model, {100.0, 0.0});
    EXPECT_NEAR(near.mean(), 3.0, 0.01);
    EXPECT_LT(std::sqrt(near.variance()), 0.3);
    EXPECT_NEAR(std::sqrt(far.variance()), 50.0, 10.0);  // mostly the trend's 0.5 over 100 m
}

TEST(Surface, AStatedAttitudeActsAsADatum) {
    SurfaceDatum stated;
    stated.height = 0.0;
    stated.fixed_variance = 25.0;
    stated.normal = Eigen::Vector3d::UnitZ();
    stated.gradient_core_noise = false;
    stated.gradient_stated_variance = {0.027, 0.0305};  // 10 degrees, along strike times sin 70 degrees
    const auto model = fit_surface({stated}, 50.0, {});
    const double sd = std::sqrt(height_at(*model, {100.0, 0.0}).variance());
    EXPECT_GT(sd, 15.0);
    EXPECT_LT(sd, 30.0);
}

// With nothing shared between holes, a path's errors only add their variance, the noise factor on what is not deviation.
TEST(Surface, ErrorsOfAPathWidenTheHeightOverIt) {
    const auto model = fit_surface(data_of(10), 50.0, {});
    const Eigen::Vector3d slope_row(-0.1, 0.05, 1.0);
    const ChartEffect survey{source(paths::SourceKind::azimuth_hole, 77, 0.02), {30.0, 0.0, 100.0}, Eigen::Vector3d::Zero()};
    const ChartEffect drift{source(paths::SourceKind::lift_rate, 77, 1e-3), {0.0, 0.0, 2000.0}, Eigen::Vector3d::Zero()};
    const Eigen::Vector3d point(60.0, 40.0, 7.0);
    const numerics::NormalMixture plain = height_at(*model, point.head<2>());
    const numerics::NormalMixture over = height_over_path(*model, point, slope_row, {survey, drift});
    for (std::size_t k = 0; k < plain.means.size(); ++k) {
        const double noise = std::pow(model->nodes[k].guess.noise_factor, 2);
        const double added = noise * std::pow(0.02 * 97.0, 2) + 4.0;
        EXPECT_NEAR(over.means[k], plain.means[k] - 7.0, 1e-9);
        EXPECT_NEAR(std::pow(over.sds[k], 2), std::pow(plain.sds[k], 2) + added, 1e-8);
    }
}

// Errors that data and forecast share, by plain algebra: the joint covariance of all heights, the rows' and the asked one's.
TEST(Surface, SharedErrorsCancelAsTheJointCovarianceSays) {
    std::vector<SurfaceDatum> data = data_of(6);
    const paths::ErrorSource common{{paths::SourceKind::azimuth_common, 0, 0}, paths::Scope::project, 0.02};
    for (std::size_t i = 0; i < data.size(); ++i)
        data[i].effects.push_back(
            {common, {10.0, 5.0 * static_cast<double>(i), 60.0 + 20.0 * static_cast<double>(i)}, {0.2, 0.9, 0.1}});
    const SurfaceRules shared{true};
    const auto model = fit_surface(data, 50.0, shared);
    const Eigen::Vector3d slope_row(0.0, -0.2, 1.0);
    const Eigen::Vector3d displacement(-20.0, 30.0, 90.0);
    const numerics::NormalMixture over =
        height_over_path(*model, {60.0, 40.0, 0.0}, slope_row, {{common, displacement, Eigen::Vector3d::Zero()}});

    // The asked point as one more datum whose error is the same, its sign turned: surface - path = height + b e.
    std::vector<SurfaceDatum> joint = data;
    SurfaceDatum extra;
    extra.place = {60.0, 40.0};
    extra.height = 0.0;
    extra.effects.push_back({common, displacement, Eigen::Vector3d::Zero()});
    joint.push_back(extra);
    std::vector<Eigen::Vector2d> slopes;
    const SurfaceRows first = rows_of_data(data, shared);
    const SurfaceNode node = surface_node(first, {first_guess(first, 50.0), 1.0});
    for (const SurfaceDatum& datum : data) slopes.push_back(node_mean(first, node, datum.place - first.centre).gradient);
    slopes.emplace_back(0.0, 0.2);
    const SurfaceRows rows = surface_rows(joint, slopes, 50.0, shared);
    const auto at = static_cast<std::size_t>(std::find(rows.datum.begin(), rows.datum.end(), data.size()) - rows.datum.begin());
    const Eigen::Index row = rows.places[at].first;
    for (std::size_t k = 0; k < 5; ++k) {
        Eigen::MatrixXd all = covariance_of_rows(rows, model->nodes[k].guess).selfadjointView<Eigen::Lower>();
        std::vector<Eigen::Index> others;
        for (Eigen::Index i = 0; i < all.rows(); ++i)
            if (i != row) others.push_back(i);
        const Eigen::VectorXd across = all(others, std::vector<Eigen::Index>{row});
        const Eigen::MatrixXd known = all(others, others);
        const Eigen::VectorXd weights = known.ldlt().solve(across);
        const Eigen::VectorXd values = rows.values(others);
        const double own_noise = extra.fixed_variance;
        EXPECT_NEAR(over.means[k], weights.dot(values), 0.02);  // the trend's centre differs by the extra place
        EXPECT_NEAR(std::pow(over.sds[k], 2), all(row, row) - own_noise - weights.dot(across), 2e-2);
    }
}

TEST(Surface, SourcesOfOneHoleTieItsHeightToItsSlopes) {
    std::vector<SurfaceDatum> data = data_of(3);
    for (std::size_t i = 0; i < 3; ++i)
        data[i].effects.push_back({source(paths::SourceKind::azimuth_common, 0, 0.02), {0.0, 0.0, 80.0}, {0.0, 1.0, 0.0}});
    const SurfaceRows apart = rows_of_data(data), together = rows_of_data(data, {true});
    const Eigen::Index a = apart.places[0].first, b = apart.places[1].first;
    EXPECT_NEAR(apart.scaled(a + 1, a), together.scaled(a + 1, a), 1e-12);
    EXPECT_NE(apart.scaled(a + 1, a), 0.0);
    EXPECT_EQ(apart.scaled(std::max(a, b), std::min(a, b)), 0.0);
    EXPECT_NEAR(together.scaled(std::max(a, b), std::min(a, b)), std::pow(80.0 * 0.02, 2), 1e-9);
}

// The table's turn of a normal, against a small turn carried out.
TEST(Surface, SlopeRowsTurnWithTheirSources) {
    std::vector<SurfaceDatum> data = data_of(1);
    data[0].normal = Eigen::Vector3d(0.2, -0.3, 0.9).normalized();
    const Eigen::Vector3d axis(0.3, -0.5, 0.8);
    data[0].effects.push_back({source(paths::SourceKind::dip_hole, 0, 1.0), Eigen::Vector3d::Zero(), axis});
    const SurfaceRows rows = rows_of_data(data);
    const double e = 1e-6;
    const Eigen::Vector3d turned = *data[0].normal + e * axis.cross(*data[0].normal);
    const Eigen::Vector2d change = (-turned.head<2>() / turned.z() + data[0].normal->head<2>() / data[0].normal->z()) / e;
    EXPECT_NEAR(rows.scaled(1, 1), std::pow(50.0 * change.x(), 2), 1e-2);
    EXPECT_NEAR(rows.scaled(2, 1), 2500.0 * change.x() * change.y(), 1e-2);
}

TEST(SurfaceNeighbours, AllBeforeGiveTheExactLikelihood) {
    const SurfaceRows rows = rows_of_data(data_of(25));
    const NeighbourLikelihood all(rows, 24), some(rows, 12);
    Scores rough, smooth;
    rough << -0.5, 0.5, 0.3, 0.2, 0.0, 0.0;
    smooth << 0.8, -0.5, 0.3, 0.2, 0.0, 0.0;
    const auto exact = [&](const Scores& t) { return log_likelihood(rows, Smoothness::three_halves, t, 50.0); };
    const auto by = [&](const NeighbourLikelihood& l, const Scores& t) { return l(guess_of(Smoothness::three_halves, t, 50.0)); };
    EXPECT_NEAR(by(all, rough), exact(rough), 1e-8);
    EXPECT_NEAR(by(some, rough) - by(some, smooth), exact(rough) - exact(smooth), 0.5);
}

TEST(SurfaceNeighbours, DerivativesAreThoseOfTheLikelihood) {
    const NeighbourLikelihood likelihood(rows_of_data(data_of(25)), 6);
    Scores scores, gradient;
    scores << -0.3, 0.4, 0.3, 0.2, 0.1, -0.1;
    constexpr double step = 1e-5;
    const double value = likelihood(Smoothness::three_halves, scores, 50.0, gradient);
    EXPECT_NEAR(value, likelihood(guess_of(Smoothness::three_halves, scores, 50.0)), 1e-8);
    for (Eigen::Index i = 0; i < surface_scores; ++i) {
        const Scores up = scores + step * Scores::Unit(i), down = scores - step * Scores::Unit(i);
        const double rise =
            likelihood(guess_of(Smoothness::three_halves, up, 50.0)) - likelihood(guess_of(Smoothness::three_halves, down, 50.0));
        EXPECT_NEAR(gradient(i), rise / (2.0 * step), 1e-4 * (1.0 + std::abs(gradient(i))));
    }
}

// 220 oriented intercepts of a real lattice: the way of very many data against the exact one's answer on the same nodes' terms.
TEST(SurfaceNeighbours, VeryManyDataAreFittedToo) {
    const made_up::Vein world = made_up::vein(12, 220, 1, true);
    const auto model = fit_surface(world.data, 50.0, {});
    EXPECT_LE(model->nodes.size(), 12U);
    std::size_t within = 0;
    const auto said = heights_at(*model, world.places.inside);
    for (std::size_t i = 0; i < said.size(); ++i) {
        const double share = said[i].cumulative(world.inside(static_cast<Eigen::Index>(i)));
        within += share > 0.005 && share < 0.995 ? 1 : 0;
    }
    EXPECT_GE(within, said.size() - 2);
}

// The data of a vein with alpha alone: holes that run 40 degrees from the plane in changing directions, each normal known only by
// its angle with the hole.
std::vector<SurfaceDatum> with_alphas_alone(std::vector<SurfaceDatum> data) {
    for (std::size_t i = 0; i < data.size(); ++i) {
        const double turn = 0.7 * static_cast<double>(i), dive = 40.0 * 3.14159265358979 / 180.0;
        const Eigen::Vector3d hole(std::cos(dive) * std::cos(turn), std::cos(dive) * std::sin(turn), -std::sin(dive));
        const double sine = std::abs(hole.dot(data[i].normal->normalized()));
        data[i].alpha = AlphaAlone{base::Angle::radians(std::asin(sine)), hole, {static_cast<int>(i), 0}};
        data[i].normal.reset();
    }
    return data;
}

// Oriented core tells more than alpha alone, and that more than none (expected by the share of a slope that each gives).
TEST(Surface, AlphaAloneIsWorthPartOfAnOrientedContact) {
    double oriented = 0.0, alphas = 0.0, none = 0.0;
    for (const std::uint64_t world : {1U, 2U, 3U, 4U}) {
        const made_up::Vein vein = made_up::vein(world, 6, world, true);
        std::vector<SurfaceDatum> bare = vein.data;
        for (SurfaceDatum& datum : bare) datum.normal.reset();
        const auto variance_with_all = [](const std::vector<SurfaceDatum>& data) {
            return height_at(*fit_surface(data, 50.0, {}), {260.0, -120.0}).variance();
        };
        oriented += variance_with_all(vein.data);
        alphas += variance_with_all(with_alphas_alone(vein.data));
        none += variance_with_all(bare);
    }
    EXPECT_LT(oriented, alphas);
    EXPECT_LT(alphas, none);
}

// Turning the hole's normal about the hole leaves alpha and so the datum; on a plane square to the axes alpha tells the slope.
TEST(Surface, AlphaAloneTellsTheSlopeInItsOwnDirection) {
    SurfaceDatum datum;
    datum.hole = "K-01";
    datum.height = 0.0;
    const Eigen::Vector3d hole = Eigen::Vector3d(1.0, 0.0, -1.0).normalized();
    // A surface that rises 0.2 along u: alpha of its normal (-0.2, 0, 1) with that hole.
    const double sine = std::abs(hole.dot(Eigen::Vector3d(-0.2, 0.0, 1.0).normalized()));
    datum.alpha = AlphaAlone{base::Angle::radians(std::asin(sine)), hole, {0, 0}};
    const SurfaceRows rows = rows_of_data({datum});
    ASSERT_EQ(rows.places.at(0).count(), 3);
    const Eigen::Index slope = rows.places[0].slope_row();
    EXPECT_NEAR(rows.values(slope) / rows.slope_scale, 0.2, 1e-9);
    EXPECT_NEAR(rows.values(slope + 1) / rows.slope_scale, 0.0, 1e-9);
    // Along u it is as good as oriented core, along v it is worth nothing.
    const double s2 = rows.slope_scale * rows.slope_scale;
    const double turn_u = rows.scaled(slope, slope) / s2, turn_v = rows.scaled(slope + 1, slope + 1) / s2;
    EXPECT_LT(turn_u, 1e-12);
    EXPECT_GT(turn_v, 0.3);
}

}  // namespace
}  // namespace selvage::veins
