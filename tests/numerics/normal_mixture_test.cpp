#include "numerics/normal_mixture.h"

#include <gtest/gtest.h>

#include <cmath>

namespace selvage::numerics {
namespace {

const NormalMixture three{{0.2, 0.5, 0.3}, {-4.0, 0.5, 3.0}, {0.7, 2.0, 0.4}};

// Integral by Simpson's rule.
template <typename Function>
double integral(const Function& function, double from, double to, int steps = 20000) {
    const double h = (to - from) / steps;
    double sum = function(from) + function(to);
    for (int i = 1; i < steps; ++i) sum += (i % 2 == 1 ? 4.0 : 2.0) * function(from + i * h);
    return sum * h / 3.0;
}

// Tables of the normal distribution: Abramowitz & Stegun 1964, tables 26.1 and 26.2.
TEST(NormalDistribution, AgreesWithPrintedTables) {
    EXPECT_NEAR(normal_cumulative(1.0), 0.841344746068543, 1e-14);
    EXPECT_NEAR(normal_cumulative(-2.0), 0.022750131948179, 1e-14);
    EXPECT_NEAR(normal_density(1.0), 0.241970724519143, 1e-14);
    EXPECT_NEAR(normal_quantile(0.975), 1.959963984540054, 1e-13);
    EXPECT_NEAR(normal_quantile(0.1), -1.2815515655446004, 1e-13);
}

// log10 of the upper tail at 5, 10, 20 and 50 sd: Abramowitz & Stegun 1964, table 26.2 (-log Q(x)).
TEST(NormalDistribution, KeepsItsFarTailInLogs) {
    EXPECT_NEAR(log_normal_cumulative(-5.0) / std::log(10.0), -6.54265, 1e-5);
    EXPECT_NEAR(log_normal_cumulative(-10.0) / std::log(10.0), -23.11805, 1e-5);
    EXPECT_NEAR(log_normal_cumulative(-20.0) / std::log(10.0), -88.56010, 1e-5);
    EXPECT_NEAR(log_normal_cumulative(-50.0) / std::log(10.0), -544.96634, 1e-5);
    EXPECT_NEAR(log_normal_cumulative(-30.0 - 1e-9), log_normal_cumulative(-30.0 + 1e-9), 1e-6);
}

TEST(NormalMixtures, CumulativeIsTheIntegralOfTheDensity) {
    const auto density = [](double x) { return three.density(x); };
    for (const double value : {-4.5, 0.0, 2.9, 6.0}) EXPECT_NEAR(three.cumulative(value), integral(density, -20.0, value), 1e-10);
}

TEST(NormalMixtures, QuantileTurnsTheCumulativeRound) {
    for (const double probability : {1e-6, 0.01, 0.1, 0.2, 0.5, 0.9, 0.99, 1.0 - 1e-6})
        EXPECT_NEAR(three.cumulative(three.quantile(probability)), probability, 1e-9);
    const NormalMixture far_apart{{0.5, 0.5}, {0.0, 1000.0}, {0.1, 0.1}};
    EXPECT_NEAR(far_apart.cumulative(far_apart.quantile(0.75)), 0.75, 1e-6);
    const NormalMixture one{{1.0}, {3.0}, {2.0}};
    EXPECT_NEAR(one.quantile(0.975), 3.0 + 2.0 * 1.959963984540054, 1e-8);
}

TEST(NormalMixtures, MomentsAreThoseOfTheDensity) {
    const double mean = integral([](double x) { return x * three.density(x); }, -30.0, 30.0);
    const double square = integral([](double x) { return x * x * three.density(x); }, -30.0, 30.0);
    EXPECT_NEAR(three.mean(), mean, 1e-9);
    EXPECT_NEAR(three.variance(), square - mean * mean, 1e-8);
}

// The score by its definition: the integral of (F(x) - [x >= what came])^2 (Gneiting & Raftery 2007).
TEST(NormalMixtures, ScoreIsTheIntegralThatDefinesIt) {
    for (const double came : {-6.0, 0.3, 4.0}) {
        const double below = integral([](double x) { return std::pow(three.cumulative(x), 2); }, -40.0, came);
        const double above = integral([](double x) { return std::pow(1.0 - three.cumulative(x), 2); }, came, 40.0);
        EXPECT_NEAR(three.crps(came), below + above, 1e-8);
    }
}

TEST(NormalMixtures, ShiftAndFactorMoveEveryPart) {
    EXPECT_NEAR(shifted(three, 5.0).cumulative(5.3), three.cumulative(0.3), 1e-15);
    EXPECT_NEAR(scaled(three, -2.0).cumulative(-0.6), 1.0 - three.cumulative(0.3), 1e-15);
}

TEST(NormalMixtures, LimitedMeanOfTheExponentialIsItsIntegral) {
    const auto limited = [](double x) { return std::min(std::exp(x), 5.0) * three.density(x); };
    const double by_parts = integral(limited, -40.0, std::log(5.0)) + integral(limited, std::log(5.0), 40.0);
    EXPECT_NEAR(limited_mean_of_exponential(three, 5.0), by_parts, 1e-8);
    const NormalMixture wide{{1.0}, {2.0}, {30.0}};  // e^(b^2/2) alone would overflow nothing but mean nothing
    EXPECT_GT(limited_mean_of_exponential(wide, 5.0), 2.0);
    EXPECT_LT(limited_mean_of_exponential(wide, 5.0), 5.0);
}

TEST(NormalMixtures, WeightsFromLogsIgnoreTheirOffset) {
    const std::vector<double> weights = weights_from_logs({-1000.0, -1000.0 + std::log(3.0), -1e9});
    EXPECT_NEAR(weights[0], 0.25, 1e-12);
    EXPECT_NEAR(weights[1], 0.75, 1e-12);
    EXPECT_EQ(weights[2], 0.0);
}

}  // namespace
}  // namespace selvage::numerics
