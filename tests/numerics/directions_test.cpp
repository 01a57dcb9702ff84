#include "numerics/directions.h"

#include "support/attitudes.h"

#include <gtest/gtest.h>

#include <cmath>
#include <utility>

namespace selvage::numerics {
namespace {

// Trend and plunge in degrees to a unit vector (east, north, up).
using test::line;

double trend_of(const Eigen::Vector3d& v) { return base::direction_of(v.z() > 0.0 ? Eigen::Vector3d(-v) : v).azimuth.degrees(); }
double plunge_of(const Eigen::Vector3d& v) { return base::direction_of(v.z() > 0.0 ? Eigen::Vector3d(-v) : v).dip.degrees(); }

const std::vector<Eigen::Vector3d> four{line(140, 21), line(127, 23), line(142, 19), line(136, 22)};

// Documentation example of ipmag.fisher_mean, PmagPy (palaeomagnetic statistics): mean 136.30838974/21.34778403, R 3.98121389719,
// k 159.692514736, a95 7.29289141131; eigenvalues and Woodcock's numbers by the formulas of Woodcock (1977).
TEST(Directions, FisherMeanOfFourLines) {
    std::vector<Eigen::Vector3d> axes = four;
    for (int flipped = 0; flipped < 4; ++flipped) {
        const AxisMean mean = axis_mean(axes);
        EXPECT_NEAR(trend_of(mean.mean), 136.30838974, 1e-7);
        EXPECT_NEAR(plunge_of(mean.mean), 21.34778403, 1e-7);
        EXPECT_NEAR(mean.resultant, 3.98121389719, 1e-9);
        EXPECT_NEAR(mean.kappa, 159.692514736, 1e-6);
        EXPECT_NEAR(mean.cone95.degrees(), 7.29289141131, 1e-7);
        axes[static_cast<std::size_t>(flipped)] *= -1.0;  // poles are axes
    }
    const AxisShape shape = axis_shape(four);
    EXPECT_NEAR(shape.eigenvalues(0), 0.99064883, 1e-8);
    EXPECT_NEAR(shape.eigenvalues(1), 0.00924387, 1e-8);
    EXPECT_NEAR(shape.eigenvalues(2), 0.00010730, 1e-8);
    EXPECT_NEAR(shape.k, 1.04899117, 1e-6);
    EXPECT_NEAR(shape.c, 9.13048987, 1e-6);
}

// N lines evenly round a cone of half-angle t (Fisher 1953): R = N cos t, and cones of 13.206662061 and 3.660634555 degrees.
TEST(Directions, LinesRoundACone) {
    struct Case {
        int count;
        double half_angle, kappa, cone;
    };
    for (const Case& c : {Case{4, 10.0, 49.367285866, 13.206662061}, Case{8, 5.0, 229.942333380, 3.660634555}}) {
        std::vector<Eigen::Vector3d> axes;
        for (int i = 0; i < c.count; ++i) axes.push_back(line(360.0 * i / c.count, 90.0 - c.half_angle));
        const AxisMean mean = axis_mean(axes);
        EXPECT_NEAR(mean.kappa, c.kappa, 1e-6);
        EXPECT_NEAR(mean.cone95.degrees(), c.cone, 1e-7);
        const double t = c.half_angle * std::acos(-1.0) / 180.0;
        const AxisShape shape = axis_shape(axes);
        EXPECT_NEAR(shape.eigenvalues(0), std::cos(t) * std::cos(t), 1e-12);
        EXPECT_NEAR(shape.eigenvalues(1), std::sin(t) * std::sin(t) / 2.0, 1e-12);
        EXPECT_TRUE(shape.k > 1e6);
        EXPECT_NEAR(shape.c, std::log(shape.eigenvalues(0) / shape.eigenvalues(2)), 1e-9);
    }
}

// Inputs of Harrison & Hudson, Engineering Rock Mechanics part 2 (2000), q. 7.10: a hole 136/55 meets planes of these dip
// directions and dips; weights and means recomputed by the formulas above.
TEST(Directions, WeightsMendTheBiasOfTheHole) {
    const Eigen::Vector3d hole = line(136, 55);
    std::vector<Eigen::Vector3d> poles;
    for (const auto& [direction, dip] : {std::pair{201, 39}, {213, 50}, {215, 63}, {230, 52}, {247, 42}, {253, 28}})
        poles.push_back(base::upward_normal({base::Angle::degrees(dip), base::Azimuth::degrees(direction)}));
    std::vector<double> weights;
    for (const Eigen::Vector3d& pole : poles) weights.push_back(1.0 / std::abs(pole.dot(hole)));
    EXPECT_NEAR(weights[2], 3.64468233, 1e-6);
    const AxisMean plain = axis_mean(poles), weighted = axis_mean(poles, weights);
    const base::Attitude without = base::attitude_of_normal(plain.mean), with = base::attitude_of_normal(weighted.mean);
    EXPECT_NEAR(without.dip_direction.degrees(), 224.569538, 1e-5);
    EXPECT_NEAR(without.dip.degrees(), 44.338602, 1e-5);
    EXPECT_NEAR(plain.resultant, 5.754406090, 1e-6);
    EXPECT_NEAR(with.dip_direction.degrees(), 220.257471, 1e-5);
    EXPECT_NEAR(with.dip.degrees(), 48.394806, 1e-5);
}

// 1/sin(alpha), Brady & Brown p. 76, used to about 70 degrees from the hole: held beyond.
TEST(Directions, TerzaghiWeights) {
    EXPECT_NEAR(terzaghi_weight(base::Angle::degrees(90)), 1.0, 1e-9);
    EXPECT_NEAR(terzaghi_weight(base::Angle::degrees(60)), 1.154701, 1e-6);
    EXPECT_NEAR(terzaghi_weight(base::Angle::degrees(45)), 1.414214, 1e-6);
    EXPECT_NEAR(terzaghi_weight(base::Angle::degrees(30)), 2.0, 1e-9);
    EXPECT_NEAR(terzaghi_weight(base::Angle::degrees(20)), 2.923804, 1e-6);
    EXPECT_NEAR(terzaghi_weight(base::Angle::degrees(5)), 2.923804, 1e-6);
}

TEST(Directions, TwoSetsAndAStrayAreToldApart) {
    std::vector<Eigen::Vector3d> axes;
    for (int i = 0; i < 6; ++i) axes.push_back(line(40 + 3 * i, 20 + i));
    for (int i = 0; i < 4; ++i) axes.push_back(-line(130 + 4 * i, 10 + 2 * i));
    axes.push_back(line(0, 89));
    const std::vector<int> sets = axis_sets(axes, base::Angle::degrees(30), 3);
    for (std::size_t i = 0; i < 6; ++i) EXPECT_EQ(sets[i], 0);
    for (std::size_t i = 6; i < 10; ++i) EXPECT_EQ(sets[i], 1);
    EXPECT_EQ(sets[10], -1);
}

}  // namespace
}  // namespace selvage::numerics
