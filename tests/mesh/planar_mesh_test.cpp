#include "mesh/planar_mesh.h"

#include "base/parallel.h"
#include "base/random.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <set>

namespace selvage::mesh {
namespace {

using Loop = std::vector<Eigen::Vector2d>;
const Loop square = {{0, 0}, {100, 0}, {100, 100}, {0, 100}};
const Loop hole = {{40, 40}, {40, 60}, {60, 60}, {60, 40}};

double cross(const Eigen::Vector2d& a, const Eigen::Vector2d& b) { return a.x() * b.y() - a.y() * b.x(); }

std::array<Eigen::Vector2d, 3> corners(const PlanarMesh& mesh, const std::array<int, 3>& triangle) {
    const auto at = [&](std::size_t k) { return mesh.points[static_cast<std::size_t>(triangle[k])]; };
    return {at(0), at(1), at(2)};
}

double area(const PlanarMesh& mesh) {
    double twice = 0.0;
    for (const auto& triangle : mesh.triangles) {
        const auto [a, b, c] = corners(mesh, triangle);
        EXPECT_GT(cross(b - a, c - a), 0.0);
        twice += cross(b - a, c - a);
    }
    return 0.5 * twice;
}

PlanarRegion region_of(std::vector<Loop> loops, double longest_edge) {
    PlanarRegion region;
    region.loops = std::move(loops);
    if (longest_edge > 0.0) region.longest_edge = [=](const Eigen::Vector2d&) { return longest_edge; };
    return region;
}

bool has_edge_along(const PlanarMesh& mesh, const Eigen::Vector2d& from, const Eigen::Vector2d& to, double& covered) {
    std::set<std::pair<int, int>> edges;
    const Eigen::Vector2d way = (to - from).normalized();
    const auto on = [&](int i) {
        const Eigen::Vector2d place = mesh.points[static_cast<std::size_t>(i)] - from;
        return std::abs(cross(way, place)) < 1e-6 && place.dot(way) > -1e-6 && place.dot(way) < (to - from).norm() + 1e-6;
    };
    covered = 0.0;
    for (const auto& triangle : mesh.triangles) {
        for (std::size_t k = 0; k < 3; ++k) {
            const int a = triangle[k], b = triangle[(k + 1) % 3];
            if (!on(a) || !on(b) || !edges.insert({std::min(a, b), std::max(a, b)}).second) continue;
            covered += (mesh.points[static_cast<std::size_t>(a)] - mesh.points[static_cast<std::size_t>(b)]).norm();
        }
    }
    return !edges.empty();
}

TEST(PlanarMesh, CoversTheRegionWithoutItsHoles) {
    for (const double longest_edge : {0.0, 50.0, 7.0}) {
        const auto mesh = triangulate(region_of({square, hole}, longest_edge));
        ASSERT_TRUE(mesh) << mesh.message;
        EXPECT_NEAR(area(*mesh), 9600.0, 1e-7);
    }
}

TEST(PlanarMesh, DirectionAndOrderOfLoopsDoNotMatter) {
    Loop turned = hole;
    std::reverse(turned.begin(), turned.end());
    const auto mesh = triangulate(region_of({turned, square}, 20.0));
    ASSERT_TRUE(mesh);
    EXPECT_NEAR(area(*mesh), 9600.0, 1e-7);
}

TEST(PlanarMesh, IslandsInHolesAndSeveralPartsAreParts) {
    const Loop island = {{45, 45}, {55, 45}, {55, 55}, {45, 55}}, apart = {{200, 0}, {210, 0}, {200, 10}};
    const auto mesh = triangulate(region_of({square, hole, island, apart}, 9.0));
    ASSERT_TRUE(mesh);
    EXPECT_NEAR(area(*mesh), 9600.0 + 100.0 + 50.0, 1e-7);
    EXPECT_EQ(mesh->boundary.size(), 4U);
}

TEST(PlanarMesh, KeepsEveryEdgeWithinTheBoundOfItsPlaceAndAnglesOpen) {
    PlanarRegion region = region_of({square, hole}, 1.0);
    region.longest_edge = [](const Eigen::Vector2d& place) { return 2.0 + 0.2 * place.x(); };
    const auto mesh = triangulate(region);
    ASSERT_TRUE(mesh);
    for (const auto& triangle : mesh->triangles) {
        const auto [a, b, c] = corners(*mesh, triangle);
        const std::array<double, 3> sides = {(b - a).norm(), (c - b).norm(), (a - c).norm()};
        EXPECT_LE(*std::max_element(sides.begin(), sides.end()), region.longest_edge((a + b + c) / 3.0) + 1e-9);
        const double sine =
            cross(b - a, c - a) * *std::min_element(sides.begin(), sides.end()) / (sides[0] * sides[1] * sides[2]);
        EXPECT_GT(sine, std::sqrt(0.125) - 1e-9);
    }
    const auto right = std::count_if(mesh->points.begin(), mesh->points.end(), [](const auto& p) { return p.x() > 50.0; });
    EXPECT_LT(3 * right, static_cast<std::ptrdiff_t>(mesh->points.size()));
}

TEST(PlanarMesh, RequiredPointsAreVerticesThoseOutsideAreNot) {
    PlanarRegion region = region_of({square, hole}, 15.0);
    region.points = {{12.3, 45.6}, {50, 50}, {100, 33}, {0, 0}, {101, 5}, {40, 47.7}, {12.3, 45.6}, {70, 1e-8}};
    const auto mesh = triangulate(region);
    ASSERT_TRUE(mesh);
    ASSERT_EQ(mesh->required.size(), region.points.size());
    for (std::size_t i = 0; i < region.points.size(); ++i) {
        const bool outside = i == 1 || i == 4;
        EXPECT_EQ(mesh->required[i] < 0, outside) << i;
        if (outside) continue;
        EXPECT_LT((mesh->points[static_cast<std::size_t>(mesh->required[i])] - region.points[i]).norm(), 1.1 * planar_weld);
    }
    EXPECT_NEAR(area(*mesh), 9600.0, 1e-4);
}

TEST(PlanarMesh, BoundaryKnowsWhichEdgeOfWhichLoopItComesFrom) {
    Loop clockwise = square;
    std::reverse(clockwise.begin(), clockwise.end());
    for (const Loop& outer : {square, clockwise}) {
        PlanarRegion region = region_of({outer, hole}, 8.0);
        region.points = {{100, 33}, {100, 71}};
        region.lines = {{{-5, 20}, {50, 20}, {50, 30}}};
        const auto mesh = triangulate(region);
        ASSERT_TRUE(mesh);
        ASSERT_EQ(mesh->boundary.size(), 2U);
        for (std::size_t l = 0; l < 2; ++l) {
            const Loop& loop = region.loops[l];
            const auto& boundary = mesh->boundary[l];
            double twice = 0.0;
            for (std::size_t i = 0; i < boundary.size(); ++i) {
                const Eigen::Vector2d a = mesh->points[static_cast<std::size_t>(boundary[i].point)];
                const Eigen::Vector2d b = mesh->points[static_cast<std::size_t>(boundary[(i + 1) % boundary.size()].point)];
                const auto edge = static_cast<std::size_t>(boundary[i].edge);
                const Eigen::Vector2d from = loop[edge], way = (loop[(edge + 1) % loop.size()] - from).normalized();
                for (const Eigen::Vector2d& end : {a, b}) {
                    EXPECT_NEAR(cross(way, end - from), 0.0, 1e-9);
                    EXPECT_GE(way.dot(end - from), -1e-9);
                }
                twice += cross(a, b);
            }
            EXPECT_NEAR(twice, l == 0 ? 20000.0 : -800.0, 1e-6);  // the region is on the left
            EXPECT_EQ(mesh->points[static_cast<std::size_t>(boundary.front().point)], loop.front());
        }
    }
}

TEST(PlanarMesh, EdgesFollowLinesThatCrossEachOtherAndTheLoops) {
    for (const double longest_edge : {0.0, 12.0}) {
        PlanarRegion region = region_of({square, hole}, longest_edge);
        region.lines = {{{-20, 10}, {120, 30}}, {{20, -10}, {20, 110}}, {{30, 50}, {80, 50}}, {{0, 100}, {100, 100}}};
        const auto mesh = triangulate(region);
        ASSERT_TRUE(mesh) << mesh.message;
        EXPECT_NEAR(area(*mesh), 9600.0, 1e-4);
        double covered = 0.0;
        EXPECT_TRUE(has_edge_along(*mesh, {0, 10.0 + 20.0 / 7.0}, {100, 10.0 + 120.0 / 7.0}, covered));
        EXPECT_NEAR(covered, std::hypot(100.0, 100.0 / 7.0), 1e-4);
        EXPECT_TRUE(has_edge_along(*mesh, {20, 0}, {20, 100}, covered));
        EXPECT_NEAR(covered, 100.0, 1e-6);
        EXPECT_TRUE(has_edge_along(*mesh, {30, 50}, {80, 50}, covered));
        EXPECT_NEAR(covered, 30.0, 1e-6);  // 20 of 50 m run through the hole
    }
}

TEST(PlanarMesh, AcuteCornersAndPointsCloseTogetherAreMeshed) {
    PlanarRegion region = region_of({{{0, 0}, {100, 0}, {100, 1}}}, 10.0);
    region.points = {{90, 0.5}, {90.001, 0.5}, {95, 1e-4}};
    const auto mesh = triangulate(region);
    ASSERT_TRUE(mesh);
    EXPECT_NEAR(area(*mesh), 50.0, 1e-6);
    EXPECT_LT(mesh->points.size(), 5000U);
}

TEST(PlanarMesh, RefusesWhatIsNoRegionAndNamesTheLoop) {
    const Loop bow = {{0, 0}, {10, 10}, {10, 0}, {0, 10}}, flat = {{0, 0}, {10, 0}, {20, 0}}, two = {{0, 0}, {10, 0}};
    const Loop pinched = {{0, 0}, {10, 0}, {5, 5}, {10, 10}, {0, 10}, {5, 5}},
               spike = {{0, 0}, {10, 0}, {10, 10}, {10, 20}, {10, 10}, {0, 10}};
    const Loop crossing = {{90, 50}, {110, 50}, {110, 60}}, touching = {{100, 50}, {110, 50}, {110, 60}};
    const Loop bad = {{0, 0}, {10, 0}, {std::nan(""), 10}};
    const auto refusal = [](std::vector<Loop> loops) { return triangulate(region_of(std::move(loops), 10.0)); };
    EXPECT_EQ(refusal({bow}).refusal, Refusal::crossing);
    EXPECT_EQ(refusal({pinched}).refusal, Refusal::crossing);
    EXPECT_EQ(refusal({spike}).refusal, Refusal::crossing);
    EXPECT_EQ(refusal({two}).refusal, Refusal::too_few_points);
    EXPECT_EQ(refusal({}).refusal, Refusal::too_few_points);
    EXPECT_EQ(refusal({{}}).refusal, Refusal::too_few_points);
    EXPECT_EQ(refusal({bad}).refusal, Refusal::bad_number);
    EXPECT_EQ(refusal({{{0, 0}, {1e300, 0}, {0, 1}}}).refusal, Refusal::bad_number);
    for (const Loop& second : {crossing, touching, square}) {
        const auto made = refusal({square, second});
        EXPECT_EQ(made.refusal, Refusal::crossing);
        EXPECT_EQ(made.item, 1);
        EXPECT_NE(made.message.find("loop 1"), std::string::npos) << made.message;
    }
    const auto no_area = refusal({square, flat});
    EXPECT_FALSE(no_area);
    EXPECT_EQ(no_area.item, 1);
    EXPECT_EQ(refusal({{{0, 0}, {0, 0}, {1e-9, 0}, {10, 0}}}).refusal, Refusal::too_few_points);
}

TEST(PlanarMesh, RefusesABoundThatAsksForTooMuch) {
    for (const double longest_edge : {1e-3, -1.0, 1e-300, std::nan("")}) {
        PlanarRegion region = region_of({square}, 1.0);
        region.longest_edge = [=](const Eigen::Vector2d&) { return longest_edge; };
        region.most_points = 2000;
        EXPECT_EQ(triangulate(region).refusal, longest_edge == 1e-3 ? Refusal::too_many_points : Refusal::bad_number);
    }
}

TEST(PlanarMesh, SameMeshOnEveryThread) {
    PlanarRegion region = region_of({square, hole}, 2.0);
    base::RandomStream stream("points of a region", {1});
    for (int i = 0; i < 200; ++i) region.points.emplace_back(stream.uniform(0, 100), stream.uniform(0, 100));
    std::vector<PlanarMesh> made(8);
    base::parallel_for(made.size(), [&](std::size_t i) { made[i] = *triangulate(region); });
    for (const PlanarMesh& mesh : made) {
        EXPECT_EQ(mesh.points, made[0].points);
        EXPECT_EQ(mesh.triangles, made[0].triangles);
    }
    EXPECT_GT(made[0].points.size(), 3000U);
}

}  // namespace
}  // namespace selvage::mesh
