#include "veins/extent.h"

#include "support/map_files.h"
#include "support/reliefs.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <memory>

namespace selvage::veins {
namespace {

Extent two_hits() {
    Extent extent;
    extent.hits = {{0.0, 0.0}, {50.0, 0.0}};
    extent.step_out = 100.0;
    extent.chart = chart_of({Eigen::Vector3d(0.0, 0.0, -500.0), Eigen::Vector3d(1.0, 0.0, 1.0).normalized()});
    extent.height = [](const Eigen::Vector2d&) { return 0.0; };
    return extent;
}

bool has(const ExtentOutline& outline, EdgeReason reason) {
    return std::any_of(outline.pieces.begin(), outline.pieces.end(),
                       [&](const OutlinePiece& piece) { return piece.reason == reason; });
}

TEST(Extent, EndsAtTheExtrapolationDistance) {
    const Extent extent = two_hits();
    EXPECT_NEAR(margin_at(extent, {-60.0, 0.0}).inside, 40.0, 1e-12);
    EXPECT_NEAR(margin_at(extent, {170.0, 0.0}).inside, -20.0, 1e-12);
    const ExtentOutline outline = outline_of(extent, 50.0);
    ASSERT_EQ(outline.pieces.size(), 1u);
    EXPECT_EQ(outline.pieces[0].reason, EdgeReason::extrapolation_distance);
    EXPECT_LT((outline.pieces[0].places.front() - outline.pieces[0].places.back()).norm(), 1e-12);  // closed
    // Two circles of 100 m, 50 m apart: 2 pi r^2 less the lens 2 r^2 acos(d/2r) - d/2 sqrt(4 r^2 - d^2).
    const double lens = 2.0 * 1e4 * std::acos(0.25) - 25.0 * std::sqrt(4e4 - 2500.0);
    EXPECT_NEAR(outline.area, 2.0 * std::acos(-1.0) * 1e4 - lens, 150.0);
}

TEST(Extent, EndsHalfWayToAMiss) {
    Extent extent = two_hits();
    extent.misses = {{110.0, 0.0}};
    const Margin margin = margin_at(extent, {90.0, 0.0});
    EXPECT_EQ(margin.reason, EdgeReason::half_way_to_miss);
    EXPECT_NEAR(margin.inside, -10.0, 1e-9);
    EXPECT_NEAR(margin_at(extent, {75.0, 0.0}).inside, 5.0, 1e-9);
    const ExtentOutline outline = outline_of(extent, 50.0);
    EXPECT_TRUE(has(outline, EdgeReason::half_way_to_miss));
    EXPECT_TRUE(has(outline, EdgeReason::extrapolation_distance));
    for (const OutlinePiece& piece : outline.pieces) {
        if (piece.reason != EdgeReason::half_way_to_miss) continue;
        for (std::size_t i = 1; i + 1 < piece.places.size(); ++i) EXPECT_NEAR(piece.places[i].x(), 80.0, 0.05);
    }
}

TEST(Extent, EndsAtTheGround) {
    Extent extent = two_hits();
    // The vein rises to the west at 45 degrees; level ground 50 m over its centre cuts it at v = 50 sqrt 2.
    extent.ground = base::Plane{Eigen::Vector3d(0.0, 0.0, -450.0), Eigen::Vector3d::UnitZ()};
    EXPECT_EQ(margin_at(extent, {0.0, 90.0}).reason, EdgeReason::topography);
    EXPECT_NEAR(margin_at(extent, {0.0, 50.0 * std::sqrt(2.0)}).inside, 0.0, 1e-9);
    EXPECT_NEAR(margin_at(extent, {0.0, 60.0}).inside, 50.0 * std::sqrt(2.0) - 60.0, 1e-9);
    EXPECT_TRUE(has(outline_of(extent, 50.0), EdgeReason::topography));
}

// The ground steps up by 10 m to the west of east -40: there the vein goes on to v = 60 sqrt 2.
TEST(Extent, EndsAtTheGroundAsMeasured) {
    Extent extent = two_hits();
    const auto elevation = [](double east, double) { return east > -40.0 ? -450.0 : -440.0; };
    extent.ground = site::Ground(base::Plane{Eigen::Vector3d(0.0, 0.0, -450.0), Eigen::Vector3d::UnitZ()},
                                 test::grid_relief(-300.0, -300.0, 600, 600, 1.0, elevation));
    EXPECT_GT(margin_at(extent, {0.0, 50.0 * std::sqrt(2.0)}).inside, 0.0);  // at east -50: under the step
    EXPECT_NEAR(margin_at(extent, {0.0, 60.0 * std::sqrt(2.0)}).inside, 0.0, 1e-3);
    EXPECT_TRUE(has(outline_of(extent, 50.0), EdgeReason::topography));
}

// The vein strikes along v's normal: u runs along strike. Limits at 45 m along it either way.
TEST(Extent, EndsAtTheLimitOfTheProperty) {
    Extent extent = two_hits();
    const Eigen::Vector3d along = extent.chart.world_from_chart({45.0, 0.0, 0.0}),
                          across = extent.chart.world_from_chart({0.0, 0.0, 0.0});
    const double limit = (along - across).head<2>().norm();
    ASSERT_NEAR(limit, 45.0, 1e-9);
    extent.property = std::make_shared<const site::Property>(
        site::Property({{test::box_ring(-1000.0, across.y() - limit, 1000.0, across.y() + limit)}}));
    EXPECT_NEAR(margin_at(extent, {40.0, 0.0}).inside, 5.0, 1e-9);
    EXPECT_EQ(margin_at(extent, {40.0, 0.0}).reason, EdgeReason::property);
    EXPECT_NEAR(margin_at(extent, {60.0, 0.0}).inside, -15.0, 1e-9);
    EXPECT_EQ(margin_at(extent, {-95.0, 30.0}).reason, EdgeReason::property);
    const ExtentOutline outline = outline_of(extent, 50.0);
    EXPECT_TRUE(has(outline, EdgeReason::property));
    EXPECT_TRUE(has(outline, EdgeReason::extrapolation_distance));
}

TEST(Extent, WithoutHitsThereIsNone) {
    Extent extent = two_hits();
    extent.hits.clear();
    EXPECT_LT(margin_at(extent, {0.0, 0.0}).inside, 0.0);
    EXPECT_TRUE(outline_of(extent, 50.0).pieces.empty());
}

}  // namespace
}  // namespace selvage::veins
