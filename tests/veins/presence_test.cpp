#include "veins/presence.h"

#include "base/random.h"
#include "numerics/normal_mixture.h"

#include <Eigen/Cholesky>
#include <Eigen/LU>

#include <gtest/gtest.h>

#include <cmath>

namespace selvage::veins {
namespace {

double believed(const PresenceDatum& datum, double h) {
    const double chance = numerics::normal_cumulative(datum.hit ? h : -h);
    return datum.sure ? chance : 0.1 + 0.8 * chance;
}

// With one datum the tilted distribution is matched exactly: log evidence, mean and variance by the trapezium rule over the
// hidden value (closed for a normal weight: errors fall faster than any power of the step).
TEST(Presence, OneDatumEqualsQuadrature) {
    for (const bool hit : {true, false})
        for (const bool sure : {true, false}) {
            const PresenceDatum datum{{0.0, 0.0}, hit, sure};
            const double variance = 4.0, mean = 0.7;
            double weight = 0.0, first = 0.0, second = 0.0;
            for (double z = -12.0; z <= 12.0; z += 1e-3) {
                const double h = mean + std::sqrt(variance) * z, w = numerics::normal_density(z) * believed(datum, h) * 1e-3;
                weight += w;
                first += w * h;
                second += w * h * h;
            }
            const double exact_mean = first / weight, exact_variance = second / weight - exact_mean * exact_mean;
            const PropagatedSites sites = propagate(Eigen::MatrixXd::Constant(1, 1, variance), mean, {datum});
            const double posterior_variance = 1.0 / (1.0 / variance + sites.precision(0));
            EXPECT_NEAR(sites.log_evidence, std::log(weight), 1e-9);
            EXPECT_NEAR(mean + posterior_variance * sites.shift(0), exact_mean, 1e-8);
            EXPECT_NEAR(posterior_variance, exact_variance, 1e-8);
        }
}

// Five correlated data against a sample of 400,000 from the prior, weighted by the likelihood (closed form: none). The sample's
// own error is 0.3 % of the evidence.
TEST(Presence, AgreesWithALargeImportanceSample) {
    const std::vector<PresenceDatum> data{
        {{0, 0}, true, true}, {{60, 0}, true, true}, {{120, 10}, false, true}, {{30, 70}, true, false}, {{90, 80}, false, true}};
    const Eigen::Index n = 5;
    Eigen::MatrixXd prior(n, n);
    for (Eigen::Index i = 0; i < n; ++i)
        for (Eigen::Index j = 0; j < n; ++j)
            prior(i, j) =
                2.0 + 4.0 * std::exp(-(data[static_cast<std::size_t>(i)].place - data[static_cast<std::size_t>(j)].place).norm() /
                                     80.0);
    const double mean = 1.2;
    const Eigen::MatrixXd root = prior.llt().matrixL();
    base::RandomStream stream("importance sample of presence", {1});
    double evidence = 0.0;
    Eigen::VectorXd means = Eigen::VectorXd::Zero(n);
    constexpr int draws = 400000;
    for (int draw = 0; draw < draws; ++draw) {
        Eigen::VectorXd z(n);
        for (Eigen::Index i = 0; i < n; ++i) z(i) = stream.normal();
        const Eigen::VectorXd h = (root * z).array() + mean;
        double weight = 1.0;
        for (Eigen::Index i = 0; i < n; ++i) weight *= believed(data[static_cast<std::size_t>(i)], h(i));
        evidence += weight;
        means += weight * h;
    }
    means /= evidence;
    const PropagatedSites sites = propagate(prior, mean, data);
    EXPECT_NEAR(sites.log_evidence, std::log(evidence / draws), 0.02);
    Eigen::MatrixXd precision = prior.inverse();
    precision.diagonal() += sites.precision;
    const Eigen::VectorXd posterior = (precision.inverse() * sites.shift).array() + mean;
    for (Eigen::Index i = 0; i < n; ++i) EXPECT_NEAR(posterior(i), means(i), 0.06);
}

TEST(Presence, FarAwayItIsWhatIsKnownBeforehand) {
    const auto nothing = fit_presence({}, 50.0);
    const double prior = presence_at(*nothing, {0.0, 0.0});
    EXPECT_NEAR(prior, numerics::normal_cumulative(0.67 / std::sqrt(1.49)), 1e-12);
    const auto one = fit_presence({{{0.0, 0.0}, true, true}}, 50.0);
    EXPECT_GT(presence_at(*one, {9000.0, 0.0}), prior);  // the mean is learnt too
    EXPECT_LT(presence_at(*one, {9000.0, 0.0}), presence_at(*one, {0.0, 0.0}));
}

TEST(Presence, AWindowWithoutVeinIsSeenBetweenHitsAndALikelyPickSaysLess) {
    std::vector<PresenceDatum> data;
    for (const double u : {0.0, 50.0, 100.0, 300.0, 350.0, 400.0})
        for (const double v : {0.0, 50.0, 100.0}) data.push_back({{u, v}, true, true});
    for (const double u : {170.0, 230.0})
        for (const double v : {0.0, 50.0, 100.0}) data.push_back({{u, v}, false, true});
    const auto presence = fit_presence(data, 50.0);
    EXPECT_LT(presence_at(*presence, {200.0, 50.0}), 0.25);
    EXPECT_GT(presence_at(*presence, {50.0, 50.0}), 0.8);
    EXPECT_GT(presence_at(*presence, {350.0, 50.0}), 0.8);
    const auto sure = fit_presence({{{0.0, 0.0}, false, true}}, 50.0), likely = fit_presence({{{0.0, 0.0}, false, false}}, 50.0);
    EXPECT_LT(presence_at(*sure, {0.0, 0.0}), presence_at(*likely, {0.0, 0.0}));
}

TEST(Presence, AllMissesAndTwinHolesGiveFiniteChances) {
    std::vector<PresenceDatum> misses(8, PresenceDatum{{10.0, 10.0}, false, true});
    EXPECT_LT(presence_at(*fit_presence(misses, 50.0), {10.0, 10.0}), 0.2);
    misses.push_back({{10.0, 10.0}, true, true});
    const double both = presence_at(*fit_presence(misses, 50.0), {10.0, 10.0});
    EXPECT_TRUE(both > 0.0 && both < 0.5);
}

}  // namespace
}  // namespace selvage::veins
