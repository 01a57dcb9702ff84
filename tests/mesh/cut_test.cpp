#include "mesh/cut.h"

#include "base/parallel.h"
#include "mesh/slice.h"
#include "mesh/solid_check.h"
#include "mesh/surface.h"
#include "mesh/walled_solid.h"
#include "support/made_up_solids.h"

#include <gtest/gtest.h>

#include <Eigen/Geometry>

#include <algorithm>
#include <cmath>
#include <map>

namespace selvage::mesh {
namespace {

constexpr int cut_label = 7;

void expect_sound_parts(const TriangleMesh& whole, const CutSolid& parts) {
    for (const TriangleMesh* part : {&parts.inside, &parts.outside}) {
        if (part->triangles.empty()) continue;
        EXPECT_EQ(words_of(check_solid(*part)), "sound");
    }
    EXPECT_NEAR(volume(parts.inside) + volume(parts.outside), volume(whole), 1e-6 * volume(whole));
}

double area_of_label(const TriangleMesh& mesh, int label) {
    std::vector<bool> keep;
    for (const int one : mesh.labels) keep.push_back(one == label);
    return area(selected(mesh, keep));
}

TEST(CutByPlane, HalvesOfTheCubeAcrossItsDiagonal) {
    TriangleMesh labelled = made_up::unit_cube();
    labelled.labels.assign(made_up::unit_cube().triangles.size(), 1);
    const base::Plane plane{{0.5, 0.5, 0.5}, Eigen::Vector3d(1, 1, 1).normalized()};
    const auto parts = cut_by_plane(labelled, plane, cut_label);
    ASSERT_TRUE(parts);
    expect_sound_parts(made_up::unit_cube(), *parts);
    EXPECT_NEAR(volume(parts->inside), 0.5, 1e-12);
    EXPECT_NEAR(area_of_label(parts->inside, cut_label), 1.299038106, 5e-10);  // the hexagon
    EXPECT_NEAR(area_of_label(parts->outside, cut_label), 1.299038106, 5e-10);
    EXPECT_NEAR(area_of_label(parts->inside, 1) + area_of_label(parts->outside, 1), 6.0, 1e-12);
    EXPECT_NE(std::find(parts->inside.points.begin(), parts->inside.points.end(), Eigen::Vector3d(1, 1, 1)),
              parts->inside.points.end());
}

TEST(CutByPlane, ThroughCornersAndEdges) {
    for (const Eigen::Vector3d& normal : {Eigen::Vector3d(1, -1, 0), Eigen::Vector3d(1, 1, 0), Eigen::Vector3d(1, 2, -3)}) {
        const auto parts = cut_by_plane(made_up::unit_cube(), {{0.5, 0.5, 0.5}, normal.normalized()}, cut_label);
        ASSERT_TRUE(parts);
        expect_sound_parts(made_up::unit_cube(), *parts);
        EXPECT_NEAR(volume(parts->inside), 0.5, 1e-12);
    }
    const auto corner = cut_by_plane(made_up::unit_cube(), {{1, 0, 0}, Eigen::Vector3d(1, 1, 1).normalized()}, cut_label);
    ASSERT_TRUE(corner);
    expect_sound_parts(made_up::unit_cube(), *corner);
    EXPECT_NEAR(volume(corner->outside), 1.0 / 6.0, 1e-12);
}

TEST(CutByPlane, AlongAFaceLeavesTheWholeAndNoSliver) {
    for (const double z : {0.0, 1.0, 1.0 + 0.5 * on_plane}) {
        const auto parts = cut_by_plane(made_up::unit_cube(), {{0, 0, z}, {0, 0, 1}}, cut_label);
        ASSERT_TRUE(parts);
        const bool all_above = z < 0.5;
        EXPECT_NEAR(volume(all_above ? parts->inside : parts->outside), 1.0, 1e-12);
        EXPECT_TRUE((all_above ? parts->outside : parts->inside).triangles.empty());
    }
}

TEST(CutByPlane, BesideTheSolidLeavesItWhole) {
    const auto parts = cut_by_plane(made_up::unit_cube(), {{0, 0, 5}, {0, 0, 1}}, cut_label);
    ASSERT_TRUE(parts);
    EXPECT_TRUE(parts->inside.triangles.empty());
    EXPECT_EQ(parts->outside.points, made_up::unit_cube().points);
}

TEST(CutByPlane, BetweenTwoPiecesOfASolid) {
    const TriangleMesh two = joined(made_up::unit_cube(), made_up::box({0, 0, 3}, {1, 1, 5}));
    const auto parts = cut_by_plane(two, {{0, 0, 2}, {0, 0, 1}}, cut_label);
    ASSERT_TRUE(parts);
    expect_sound_parts(two, *parts);
    EXPECT_NEAR(volume(parts->inside), 2.0, 1e-12);
}

// Three cubes in the shape of stairs, cut at the tread: the upper step comes off, the tread stays.
TEST(CutByPlane, AlongATreadOfStairsLeavesTheTread) {
    const TriangleMesh stairs = made_up::stairs();
    const auto parts = cut_by_plane(stairs, {{0, 0, 1}, {0, 0, 1}}, cut_label);
    ASSERT_TRUE(parts);
    expect_sound_parts(stairs, *parts);
    EXPECT_NEAR(volume(parts->inside), 1.0, 1e-12);
    EXPECT_NEAR(area(parts->outside), 2.0 * 2.0 + 2.0 * (2.0 + 1.0), 1e-12);
    const auto from_below = cut_by_plane(stairs, {{0, 0, 1}, {0, 0, -1}}, cut_label);
    ASSERT_TRUE(from_below);
    expect_sound_parts(stairs, *from_below);
    EXPECT_NEAR(volume(from_below->inside), 2.0, 1e-12);
}

// Planes through a point, an edge, a triangle of wavy walls, and square to them: parts that would touch themselves do not.
TEST(CutByPlane, ThroughPointsEdgesAndTrianglesOfInventedSolids) {
    for (std::uint64_t number = 0; number < 30; ++number) {
        const auto made = made_up::walled_solid(number, 40.0);
        const auto& [a, b, c] = made.solid.triangles[number * 977 % made.solid.triangles.size()];
        const auto at = [&](int i) { return made.solid.points[static_cast<std::size_t>(i)]; };
        const Eigen::Vector3d along = at(b) - at(a), normal = along.cross(at(c) - at(a)).normalized();
        for (const Eigen::Vector3d& way :
             {made_up::random_direction(number), along.cross(made_up::random_direction(number + 1)).normalized().eval(), normal,
              made.up}) {
            const auto parts = cut_by_plane(made.solid, {at(a), way}, cut_label);
            ASSERT_TRUE(parts) << number << ": " << parts.message;
            expect_sound_parts(made.solid, *parts);
        }
    }
}

TEST(CutByPlane, RefusesWhatIsOpen) {
    TriangleMesh open = made_up::unit_cube();
    open.triangles.pop_back();
    EXPECT_EQ(cut_by_plane(open, {}, cut_label).refusal, Refusal::not_closed);
}

TEST(CutBySolid, CornerOfACube) {
    TriangleMesh tool = made_up::box({0.5, 0.5, 0.5}, {2, 2, 2});
    tool.labels.assign(tool.triangles.size(), cut_label);
    TriangleMesh labelled = made_up::unit_cube();
    labelled.labels.assign(made_up::unit_cube().triangles.size(), 1);
    const auto parts = cut_by_solid(labelled, tool);
    ASSERT_TRUE(parts);
    expect_sound_parts(made_up::unit_cube(), *parts);
    EXPECT_NEAR(volume(parts->inside), 0.125, 1e-12);
    for (const TriangleMesh* part : {&parts->inside, &parts->outside}) EXPECT_NEAR(area_of_label(*part, cut_label), 0.75, 1e-12);
    EXPECT_NEAR(area_of_label(parts->inside, 1), 0.75, 1e-12);
    EXPECT_NEAR(area_of_label(parts->outside, 1), 5.25, 1e-12);
}

TEST(CutBySolid, ApartOrWithinOrAround) {
    const auto apart = cut_by_solid(made_up::unit_cube(), made_up::box({5, 5, 5}, {6, 6, 6}));
    ASSERT_TRUE(apart);
    EXPECT_TRUE(apart->inside.triangles.empty());
    EXPECT_NEAR(volume(apart->outside), 1.0, 1e-12);
    const auto around = cut_by_solid(made_up::unit_cube(), made_up::box({-1, -1, -1}, {6, 6, 6}));
    ASSERT_TRUE(around);
    EXPECT_TRUE(around->outside.triangles.empty());
    EXPECT_NEAR(volume(around->inside), 1.0, 1e-12);
    const auto within = cut_by_solid(made_up::unit_cube(), made_up::box({0.25, 0.25, 0.25}, {0.75, 0.75, 0.75}));
    ASSERT_TRUE(within);
    EXPECT_NEAR(volume(within->inside), 0.125, 1e-12);
    EXPECT_NEAR(volume(within->outside), 0.875, 1e-12);
    const auto itself = cut_by_solid(made_up::unit_cube(), made_up::unit_cube());
    ASSERT_TRUE(itself);
    EXPECT_NEAR(volume(itself->inside), 1.0, 1e-12);
    EXPECT_NEAR(std::abs(volume(itself->outside)), 0.0, 1e-12);
}

TEST(CutBySolid, RefusesWhatIsOpenOrInsideOut) {
    TriangleMesh open = made_up::unit_cube();
    open.triangles.pop_back();
    const TriangleMesh tool = made_up::box({0.5, 0.5, 0.5}, {2, 2, 2});
    EXPECT_EQ(cut_by_solid(open, tool).refusal, Refusal::not_closed);
    EXPECT_EQ(cut_by_solid(made_up::unit_cube(), open).refusal, Refusal::not_closed);
    EXPECT_EQ(cut_by_solid(reversed(made_up::unit_cube()), tool).refusal, Refusal::inside_out);
    EXPECT_EQ(cut_by_solid(made_up::unit_cube(), reversed(tool)).refusal, Refusal::inside_out);
}

// A panel whose walls touch along a line, or cross, where the tool's top runs through them.
TriangleMesh panel_with_walls(double thickness_in_the_middle) {
    PlanarRegion region;
    region.loops = {{{-50, -50}, {50, -50}, {50, 50}, {-50, 50}}};
    region.lines = {{{-50, 0}, {50, 0}}};
    region.longest_edge = [](const Eigen::Vector2d&) { return 9.0; };
    const PlanarMesh plan = *triangulate(region);
    std::vector<Eigen::Vector3d> upper, lower;
    for (const Eigen::Vector2d& place : plan.points) {
        lower.emplace_back(place.x(), 0.0, place.y());
        upper.emplace_back(place.x(), 1.0, place.y());
    }
    TriangleMesh solid = *solid_between(plan, upper, lower, Eigen::Vector3d::UnitY());
    for (std::size_t i = 0; i < plan.points.size(); ++i)
        if (std::abs(plan.points[i].y()) < 5.0) solid.points[i].y() = thickness_in_the_middle;
    return solid;
}

TEST(CutBySolid, WallsThatTouchOrCrossWhereTheyAreCutAreRefused) {
    const TriangleMesh tool = made_up::box({-100, -100, -100}, {100, 100, 0.7});
    ASSERT_TRUE(check_solid(panel_with_walls(1e-3)).sound());
    EXPECT_TRUE(cut_by_solid(panel_with_walls(1e-3), tool));
    for (const double thickness : {0.0, -0.3}) {
        const TriangleMesh bad = panel_with_walls(thickness);
        EXPECT_FALSE(check_solid(bad).sound());
        const auto parts = cut_by_solid(bad, tool);
        EXPECT_FALSE(parts) << thickness;
        EXPECT_EQ(parts.refusal, Refusal::crossing);
        EXPECT_FALSE(parts.message.empty());
    }
}

TEST(CutByPlane, WallsThatTouchOrCrossWhereTheyAreCutNeverGiveAnOpenPart) {
    for (const double z : {0.0, 0.7}) {
        for (const double thickness : {0.0, -0.3}) {
            const auto parts = cut_by_plane(panel_with_walls(thickness), {{0, 0, z}, {0, 0, 1}}, cut_label);
            if (!parts) {
                EXPECT_EQ(parts.refusal, Refusal::crossing);
                continue;
            }
            EXPECT_TRUE(is_closed(parts->inside));
            EXPECT_TRUE(is_closed(parts->outside));
        }
    }
}

// Two hundred invented solids, each cut by a plane, and its parts by a ground: all sound, nothing lost, walls still walls.
TEST(Cut, InventedSolidsByPlanesAndGroundsAreAllSound) {
    int by_plane = 0, by_ground = 0;
    for (std::uint64_t number = 0; number < 200; ++number) {
        const auto made = made_up::walled_solid(number, 35.0);
        ASSERT_EQ(words_of(check_solid(made.solid)), "sound") << number;
        const auto parts = cut_by_plane(made.solid, {{0, 0, -100}, made_up::random_direction(number)}, cut_label);
        ASSERT_TRUE(parts) << number << ": " << parts.message;
        expect_sound_parts(made.solid, *parts);
        by_plane += parts->inside.triangles.empty() || parts->outside.triangles.empty() ? 0 : 1;
        const auto surface = overhanging_surface(made_up::ground_points(number, 30), bounds(made.solid), 50.0);
        ASSERT_TRUE(surface);
        const auto ground = solid_below(*surface, std::min(bounds(*surface).lower.z(), bounds(made.solid).lower.z()) - 10.0);
        ASSERT_TRUE(ground);
        for (const TriangleMesh* part : {&parts->inside, &parts->outside}) {
            if (part->triangles.empty()) continue;
            const auto below = cut_by_solid(*part, *ground);
            ASSERT_TRUE(below) << number << ": " << below.message;
            expect_sound_parts(*part, *below);
            by_ground += below->inside.triangles.empty() || below->outside.triangles.empty() ? 0 : 1;
            for (const int wall : {upper_wall, lower_wall, cut_label}) {
                EXPECT_NEAR(area_of_label(below->inside, wall) + area_of_label(below->outside, wall), area_of_label(*part, wall),
                            1e-6 * area(*part));
            }
        }
    }
    EXPECT_GT(by_plane, 150);
    EXPECT_GT(by_ground, 150);
}

// The same cut in two ways: by the plane, and by a box whose top lies on it.
TEST(Cut, ByPlaneAndByABoxOnItAgree) {
    for (std::uint64_t number = 0; number < 20; ++number) {
        const auto made = made_up::walled_solid(number, 30.0);
        const double z = -100.0 + 3.0 * static_cast<double>(number % 5);
        const auto by_plane = cut_by_plane(made.solid, {{0, 0, z}, {0, 0, -1}}, cut_label);
        const auto by_box = cut_by_solid(made.solid, made_up::box({-999, -999, -999}, {999, 999, z}));
        ASSERT_TRUE(by_plane && by_box);
        EXPECT_NEAR(volume(by_plane->inside), volume(by_box->inside), 1e-9 * volume(made.solid));
        EXPECT_NEAR(area(by_plane->outside), area(by_box->outside), 1e-9 * area(made.solid));
    }
}

// The library's own order of triangles follows addresses in memory: of these solids that of the second came out in another order
// each time.
TEST(Cut, SameTrianglesEveryTimeAndOnEveryThread) {
    for (const std::uint64_t number : {0U, 1U}) {
        const auto made = made_up::walled_solid(number, 12.0);
        const auto ground =
            solid_below(*overhanging_surface(made_up::ground_points(number, 60), bounds(made.solid), 50.0), -1000.0);
        std::vector<TriangleMesh> results(4);
        base::parallel_for(results.size(), [&](std::size_t i) { results[i] = cut_by_solid(made.solid, *ground)->inside; });
        results.push_back(cut_by_solid(made.solid, *ground)->inside);
        for (const TriangleMesh& result : results) {
            EXPECT_EQ(result.points, results[0].points);
            EXPECT_EQ(result.triangles, results[0].triangles);
            EXPECT_EQ(result.labels, results[0].labels);
        }
        EXPECT_GT(results[0].triangles.size(), 1000U);
    }
}

}  // namespace
}  // namespace selvage::mesh
