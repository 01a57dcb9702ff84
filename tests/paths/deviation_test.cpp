#include "paths/deviation.h"

#include "base/random.h"
#include "paths/path_builder.h"

#include <gtest/gtest.h>

#include <cmath>
#include <optional>
#include <vector>

namespace selvage::paths {
namespace {

using base::Angle;
using base::Azimuth;
using base::Dip;

tables::Collar planned_at(double azimuth, double dip) {
    tables::Collar collar = collar_named("A-1", 300);
    collar.azimuth = Azimuth::degrees(azimuth);
    collar.dip = Dip::degrees(dip);
    return collar;
}

// A hole that flattens and turns by these degrees a metre.
std::vector<Reading> bending(double azimuth, double dip, double lift, double swing, double to, double from = 0.0) {
    std::vector<Reading> readings;
    for (double depth = from; depth <= to; depth += 30.0) {
        const Dip now = Dip::degrees(dip - lift * depth);
        const double mean_cosine = Angle::degrees(dip - lift * depth / 2.0).cos();
        readings.push_back({depth, Azimuth::degrees(azimuth + swing * depth / mean_cosine), now, 0});
    }
    return readings;
}

TEST(Deviation, AHoleTellsItsRatesAndItsStart) {
    const DeviationSample sample = deviation_sample(planned_at(359, 61), bending(1, 60, 0.02, 0.01, 240), {});
    EXPECT_NEAR(sample.lift->rate, Angle::degrees(0.02).radians(), 1e-9);
    EXPECT_NEAR(sample.swing->rate, Angle::degrees(0.01).radians(), 3e-6);
    EXPECT_NEAR(sample.start_azimuth->degrees(), 2.0, 1e-9);
    EXPECT_NEAR(sample.start_dip->degrees(), -1.0, 1e-9);
}

TEST(Deviation, ShortHolesDeepStartsAndOtherRowsTellNothing) {
    const DeviationSample short_hole = deviation_sample(planned_at(0, 60), bending(0, 60, 0.02, 0.01, 50), {});
    EXPECT_FALSE(short_hole.lift || short_hole.swing);
    EXPECT_TRUE(short_hole.start_dip);
    EXPECT_FALSE(deviation_sample(planned_at(0, 60), bending(0, 60, 0, 0, 200, 45), {}).start_dip);
    tables::Collar channel = planned_at(0, 60);
    channel.type = tables::HoleType::channel;
    EXPECT_FALSE(deviation_sample(channel, bending(0, 60, 0, 0, 200), {}).lift);
    tables::Collar daughter = planned_at(0, 60);
    daughter.parent = "P";
    EXPECT_FALSE(deviation_sample(daughter, bending(0, 60, 0, 0, 200), {}).lift);
}

TEST(Deviation, WithoutHolesItIsTheUsualAboutNoMean) {
    const Deviation deviation = deviation_of({});
    const RateAhead ahead = rate_ahead(deviation.lift, std::nullopt);
    EXPECT_EQ(ahead.mean, 0.0);
    EXPECT_NEAR(ahead.sd, Angle::degrees(0.025).radians(), 1e-12);
    EXPECT_EQ(deviation.holes, 0U);
}

DeviationSample with_lift(double rate) {
    DeviationSample sample;
    sample.lift = MeasuredRate();
    sample.lift->rate = rate;
    sample.lift->span = 1e9;  // so long that the rate is known
    return sample;
}

TEST(Deviation, ManyHolesFindTheMeanAndTheScatterAboutIt) {
    std::vector<DeviationSample> samples;
    base::RandomStream random("deviation test", {1});
    for (int i = 0; i < 4000; ++i) samples.push_back(with_lift(3e-4 + 4e-4 * random.normal()));
    const RateAhead ahead = rate_ahead(deviation_of(samples).lift, std::nullopt);
    EXPECT_NEAR(ahead.mean, 3e-4, 0.2e-4);
    EXPECT_NEAR(ahead.sd, 4e-4, 0.12e-4);
}

// Normal model with its conjugate prior, by hand: the prior's mean counts as one hole, its scatter (half of the usual square) as
// three.
TEST(Deviation, TwoHolesAreShrunk) {
    const double usual = rate_ahead(deviation_of({}).lift, std::nullopt).sd;
    const RateModel model = deviation_of({with_lift(usual), with_lift(usual)}).lift;
    EXPECT_NEAR(model.mean, usual * 2.0 / 3.0, 1e-9);
    EXPECT_NEAR(model.between, usual * std::sqrt((3.0 * 0.5 + 2.0 / 3.0) / 5.0), 1e-9);
    EXPECT_NEAR(model.mean_sd, model.between / std::sqrt(3.0), 1e-9);
}

TEST(Deviation, OneWrongReadingIsHeld) {
    const double usual = Angle::degrees(0.025).radians();
    base::RandomStream random("wrong reading", {1});
    std::vector<DeviationSample> samples;
    for (int i = 0; i < 20; ++i) samples.push_back(with_lift(usual + 0.3 * usual * random.normal()));
    samples.back().lift->rate = 100.0 * usual;
    const RateModel model = deviation_of(samples).lift;
    EXPECT_LT(model.mean, 1.2 * usual);
    EXPECT_LT(model.between, 0.6 * usual);
    EXPECT_LT(rate_ahead(model, samples.back().lift).mean, 3.0 * usual);
}

TEST(Deviation, AHolesOwnRateCountsForMoreTheLongerItIsSurveyed) {
    RateModel model;
    model.mean = 1e-4;
    model.between = 2e-4;
    model.wander = 1e-3;
    MeasuredRate own;
    own.rate = 5e-4;
    double before = 1.0;
    for (const double span : {60.0, 150.0, 600.0}) {
        own.span = span;
        const RateAhead ahead = rate_ahead(model, own);
        const double error = 1.2 * 1e-6 / span;
        EXPECT_NEAR(ahead.mean, (5e-4 / error + 1e-4 / 4e-8) / (1.0 / error + 1.0 / 4e-8), 1e-12);  // by precisions
        EXPECT_NEAR(ahead.sd, 1.0 / std::sqrt(1.0 / error + 1.0 / 4e-8), 1e-12);
        EXPECT_LT(ahead.sd, before);
        before = ahead.sd;
    }
}

}  // namespace
}  // namespace selvage::paths
