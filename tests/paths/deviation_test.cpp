#include "paths/deviation.h"

#include "base/random.h"
#include "paths/path_builder.h"

#include <gtest/gtest.h>

#include <cmath>
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
    const DeviationSample sample = deviation_sample(planned_at(359, 61), bending(1, 60, 0.02, 0.01, 240));
    EXPECT_NEAR(*sample.lift_rate, Angle::degrees(0.02).radians(), 1e-9);
    EXPECT_NEAR(*sample.swing_rate, Angle::degrees(0.01).radians(), 3e-6);
    EXPECT_NEAR(sample.start_azimuth->degrees(), 2.0, 1e-9);
    EXPECT_NEAR(sample.start_dip->degrees(), -1.0, 1e-9);
}

TEST(Deviation, ShortHolesDeepStartsAndOtherRowsTellNothing) {
    const DeviationSample short_hole = deviation_sample(planned_at(0, 60), bending(0, 60, 0.02, 0.01, 50));
    EXPECT_FALSE(short_hole.lift_rate || short_hole.swing_rate);
    EXPECT_TRUE(short_hole.start_dip);
    EXPECT_FALSE(deviation_sample(planned_at(0, 60), bending(0, 60, 0, 0, 200, 45)).start_dip);
    tables::Collar channel = planned_at(0, 60);
    channel.type = tables::HoleType::channel;
    EXPECT_FALSE(deviation_sample(channel, bending(0, 60, 0, 0, 200)).lift_rate);
    tables::Collar daughter = planned_at(0, 60);
    daughter.parent = "P";
    EXPECT_FALSE(deviation_sample(daughter, bending(0, 60, 0, 0, 200)).lift_rate);
}

TEST(Deviation, WithoutHolesItIsTheUsual) {
    const Deviation deviation = deviation_of({});
    EXPECT_NEAR(deviation.lift_rate, Angle::degrees(0.025).radians(), 1e-12);
    EXPECT_EQ(deviation.holes, 0U);
}

TEST(Deviation, ManyHolesFindTheSizeAboutZero) {
    std::vector<DeviationSample> samples;
    base::RandomStream random("deviation test", {1});
    for (int i = 0; i < 4000; ++i) {
        DeviationSample sample;
        sample.lift_rate = 3e-4 + 4e-4 * random.normal();  // about zero: 5e-4
        sample.swing_rate = 2e-4 * random.normal();
        samples.push_back(sample);
    }
    const Deviation deviation = deviation_of(samples);
    EXPECT_NEAR(deviation.lift_rate, 5e-4, 0.15e-4);
    EXPECT_NEAR(deviation.swing_rate, 2e-4, 0.06e-4);
}

TEST(Deviation, TwoHolesAreShrunkAndOneWrongReadingIsHeld) {
    DeviationSample straight;
    straight.lift_rate = 0.0;
    const double usual = deviation_of({}).lift_rate;
    EXPECT_NEAR(deviation_of({straight, straight}).lift_rate, usual * std::sqrt(3.0 / 5.0), 1e-12);
    std::vector<DeviationSample> samples(20);
    for (DeviationSample& sample : samples) sample.lift_rate = usual;
    samples.back().lift_rate = 100.0 * usual;
    EXPECT_LT(deviation_of(samples).lift_rate, 1.5 * usual);
}

}  // namespace
}  // namespace selvage::paths
