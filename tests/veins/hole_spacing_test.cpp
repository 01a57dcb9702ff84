#include "veins/base_plane.h"

#include "base/random.h"
#include "support/made_up_vein.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <functional>

namespace selvage::veins {
namespace {

using made_up::Places;
using Stream = base::RandomStream;

// Median of the rule over 200 layouts.
double median_spacing(const std::function<Places(Stream&)>& layout, std::uint64_t seed) {
    std::vector<double> spacings;
    for (std::uint64_t k = 0; k < 200; ++k) {
        Stream stream("hole spacing", {seed, k});
        spacings.push_back(hole_spacing(layout(stream), 50.0));
    }
    std::nth_element(spacings.begin(), spacings.begin() + 100, spacings.end());
    return spacings[100];
}

// Daughters 8 m off some of the holes.
Places with_daughters(Places holes, std::size_t count, Stream& stream) {
    for (std::size_t i = 0; i < count; ++i) {
        const double angle = stream.uniform(0.0, 6.283185307);
        holes.emplace_back(holes[i] + 8.0 * Eigen::Vector2d(std::cos(angle), std::sin(angle)));
    }
    return holes;
}

// Samples 2 m apart along one row through the ground.
Places with_row(Places holes, std::size_t count, double v) {
    for (std::size_t i = 0; i < count; ++i) holes.emplace_back(20.0 + 2.0 * static_cast<double>(i), v);
    return holes;
}

// The medians are those of the authors' study of this rule on layouts of the same description; one in ten either way.
TEST(HoleSpacing, IsThatOfTheDrillingPattern) {
    const auto fifteen = [](Stream& s) { return made_up::lattice_holes(15, 50.0, s); };
    EXPECT_NEAR(median_spacing(fifteen, 1), 50.0, 5.0);
    EXPECT_NEAR(median_spacing([](Stream& s) { return made_up::lattice_holes(60, 50.0, s); }, 2), 47.0, 5.0);
    EXPECT_NEAR(median_spacing([](Stream& s) { return made_up::fence_holes(5, 50.0, s); }, 3), 54.0, 5.5);
}

TEST(HoleSpacing, IsNotTakenInByDaughters) {
    const auto fifteen = [](Stream& s) { return with_daughters(made_up::lattice_holes(15, 50.0, s), 8, s); };
    EXPECT_NEAR(median_spacing(fifteen, 4), 50.0, 5.0);
    const auto four = [](Stream& s) { return with_daughters(made_up::lattice_holes(4, 50.0, s), 4, s); };
    EXPECT_NEAR(median_spacing(four, 5), 57.0, 6.0);
}

TEST(HoleSpacing, IsNotTakenInByRowsOfSamples) {
    const auto row = [](Stream& s) { return with_row(made_up::lattice_holes(15, 50.0, s), 60, 60.0); };
    EXPECT_NEAR(median_spacing(row, 6), 49.0, 5.0);
    const auto both = [](Stream& s) { return with_row(with_daughters(made_up::lattice_holes(15, 50.0, s), 8, s), 60, 60.0); };
    EXPECT_NEAR(median_spacing(both, 7), 48.0, 5.0);
    const auto three = [](Stream& s) {
        Places holes = made_up::lattice_holes(15, 50.0, s);
        for (const double v : {20.0, 70.0, 120.0}) holes = with_row(std::move(holes), 60, v);
        return holes;
    };
    EXPECT_NEAR(median_spacing(three, 8), 49.0, 6.5);
}

TEST(HoleSpacing, WeighsByTheGroundThatHolesStandFor) {
    const auto random = [](Stream& s) {
        Places holes;
        const double side = 50.0 * std::sqrt(30.0);
        for (int i = 0; i < 30; ++i) {
            const double u = s.uniform(0.0, side);
            holes.emplace_back(u, s.uniform(0.0, side));
        }
        return holes;
    };
    EXPECT_NEAR(median_spacing(random, 9), 45.0, 6.0);
}

TEST(HoleSpacing, OfTooFewPlacesIsThePlans) {
    EXPECT_EQ(hole_spacing({}, 42.0), 42.0);
    EXPECT_EQ(hole_spacing({{0.0, 0.0}, {30.0, 0.0}}, 42.0), 42.0);
    EXPECT_NE(hole_spacing({{0.0, 0.0}, {30.0, 0.0}, {0.0, 30.0}}, 42.0), 42.0);
}

TEST(HoleSpacing, StaysWithinItsLimits) {
    EXPECT_EQ(hole_spacing({{0.0, 0.0}, {1.0, 0.0}, {0.0, 1.0}}, 50.0), 10.0);
    EXPECT_EQ(hole_spacing({{0.0, 0.0}, {900.0, 0.0}, {0.0, 900.0}}, 50.0), 200.0);
}

TEST(HoleSpacing, DoesNotDependOnTheOrder) {
    Stream stream("hole spacing", {99});
    Places holes = with_daughters(made_up::lattice_holes(15, 50.0, stream), 8, stream);
    const double spacing = hole_spacing(holes, 50.0);
    std::reverse(holes.begin(), holes.end());
    EXPECT_EQ(hole_spacing(holes, 50.0), spacing);
}

}  // namespace
}  // namespace selvage::veins
