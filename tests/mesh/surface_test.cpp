#include "mesh/surface.h"

#include "mesh/solid_check.h"
#include "mesh/walled_solid.h"
#include "support/made_up_solids.h"

#include <gtest/gtest.h>

#include <cmath>

namespace selvage::mesh {
namespace {

TEST(WalledSolid, LabelsItsWallsAndRimAndIsSound) {
    const auto made = made_up::walled_solid(1, 20.0);
    EXPECT_TRUE(check_solid(made.solid).sound());
    std::size_t walls = 0;
    for (std::size_t t = 0; t < made.solid.triangles.size(); ++t) walls += made.solid.labels[t] == rim ? 0 : 1;
    EXPECT_EQ(walls, 2 * made.plan.triangles.size());
    std::size_t edges = 0;
    for (const auto& loop : made.plan.boundary) edges += loop.size();
    EXPECT_EQ(made.solid.triangles.size() - walls, 2 * edges);
}

TEST(WalledSolid, PlanOfTheOtherHandLooksOutwardToo) {
    PlanarRegion region;
    region.loops = {{{0, 0}, {10, 0}, {10, 5}, {0, 5}}};
    const PlanarMesh plan = *triangulate(region);
    std::vector<Eigen::Vector3d> upper, lower;
    for (const Eigen::Vector2d& place : plan.points) {  // (u, v, up) = (east, down, north): left-handed
        lower.emplace_back(place.x(), 0.0, -place.y());
        upper.emplace_back(place.x(), -2.0, -place.y());
    }
    for (const double sense : {1.0, -1.0}) {
        const auto solid =
            sense > 0 ? solid_between(plan, lower, upper, {0, 1, 0}) : solid_between(plan, upper, lower, {0, -1, 0});
        ASSERT_TRUE(solid);
        EXPECT_NEAR(volume(*solid), 100.0, 1e-9);
        EXPECT_TRUE(check_solid(*solid).sound());
    }
}

TEST(WalledSolid, RefusesWallsThatCrossAndNamesTheVertex) {
    PlanarRegion region;
    region.loops = {{{0, 0}, {10, 0}, {10, 5}, {0, 5}}};
    const PlanarMesh plan = *triangulate(region);
    std::vector<Eigen::Vector3d> upper, lower;
    for (const Eigen::Vector2d& place : plan.points) {
        lower.emplace_back(place.x(), place.y(), 0.0);
        upper.emplace_back(place.x(), place.y(), 1.0);
    }
    for (const double thickness : {0.0, -1.0, std::nan("")}) {
        upper[2].z() = thickness;
        const auto solid = solid_between(plan, upper, lower, Eigen::Vector3d::UnitZ());
        EXPECT_EQ(solid.refusal, Refusal::walls_cross);
        EXPECT_EQ(solid.item, 2);
    }
    EXPECT_FALSE(solid_between(plan, {}, lower, Eigen::Vector3d::UnitZ()));
}

TEST(Surface, GoesThroughItsPoints) {
    const auto points = made_up::ground_points(1, 20);
    const auto surface = surface_through(points);
    ASSERT_TRUE(surface);
    EXPECT_EQ(surface->points.size(), points.size());
    EXPECT_GT(surface->triangles.size(), 19U * 19U * 2U - 80U);
    for (const auto& [a, b, c] : surface->triangles) {
        const auto at = [&](int i) { return Eigen::Vector2d(surface->points[static_cast<std::size_t>(i)].head<2>()); };
        const Eigen::Vector2d one = at(b) - at(a), other = at(c) - at(a);
        EXPECT_GT(one.x() * other.y() - one.y() * other.x(), 0.0);
    }
}

TEST(Surface, RefusesTwoHeightsAtOnePlaceAndPointsInALine) {
    EXPECT_EQ(surface_through({{0, 0, 1}, {1, 0, 1}, {0, 1, 1}, {1, 0, 2}}).refusal, Refusal::crossing);
    EXPECT_TRUE(surface_through({{0, 0, 1}, {1, 0, 1}, {0, 1, 1}, {1, 0, 1}}));
    EXPECT_EQ(surface_through({{0, 0, 1}, {1, 1, 1}, {2, 2, 1}}).refusal, Refusal::no_area);
    EXPECT_EQ(surface_through({{0, 0, 1}}).refusal, Refusal::too_few_points);
    EXPECT_EQ(surface_through({}).refusal, Refusal::too_few_points);
    EXPECT_EQ(surface_through({{0, 0, 1}, {1, 0, std::nan("")}, {0, 1, 0}}).item, 1);
}

TEST(Surface, OverhangsTheBoxOnAllSides) {
    const Bounds box{{-500, -100, -300}, {100, 700, -50}};
    for (const auto& points : {made_up::ground_points(2, 10), std::vector<Eigen::Vector3d>{{0, 0, -80}}}) {
        const auto surface = overhanging_surface(points, box, 20.0);
        ASSERT_TRUE(surface);
        EXPECT_LE(bounds(*surface).lower.x(), -520.0);
        EXPECT_LE(bounds(*surface).lower.y(), -120.0);
        EXPECT_GE(bounds(*surface).upper.x(), 120.0);
        EXPECT_GE(bounds(*surface).upper.y(), 720.0);
        const auto ground = solid_below(*surface, -1000.0);
        ASSERT_TRUE(ground);
        EXPECT_TRUE(check_solid(*ground).sound());
    }
    EXPECT_FALSE(overhanging_surface({}, box, 20.0));
    EXPECT_FALSE(overhanging_surface({{0, 0, 0}}, box, 0.0));
}

TEST(Surface, SolidBelowALevelSurfaceIsABox) {
    const auto surface = surface_through({{0, 0, 5}, {10, 0, 5}, {10, 20, 5}, {0, 20, 5}});
    ASSERT_TRUE(surface);
    const auto solid = solid_below(*surface, -5.0);
    ASSERT_TRUE(solid);
    EXPECT_NEAR(volume(*solid), 2000.0, 1e-9);
    EXPECT_EQ(solid_below(*surface, 5.0).refusal, Refusal::walls_cross);
    EXPECT_FALSE(solid_below({}, 0.0));
}

}  // namespace
}  // namespace selvage::mesh
