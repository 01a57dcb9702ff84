#include "mesh/slice.h"

#include "base/parallel.h"
#include "support/made_up_solids.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <Eigen/Geometry>

#include <algorithm>
#include <cmath>

namespace selvage::mesh {
namespace {

using ::testing::ElementsAre;

base::Plane level(double z) { return {{0, 0, z}, {0, 0, 1}}; }

double total_length(const std::vector<SliceLine>& lines) {
    double sum = 0.0;
    for (const SliceLine& line : lines) sum += length_of(line);
    return sum;
}

// A regular hexagon of side sqrt(2)/2: perimeter 3 sqrt 2, area 3 sqrt(3) / 4 (elementary geometry).
TEST(Slice, CubeSquareToItsDiagonalIsAHexagon) {
    const base::Plane plane{{0.5, 0.5, 0.5}, Eigen::Vector3d(1, 1, 1).normalized()};
    const auto rings = slice(made_up::unit_cube(), plane);
    ASSERT_EQ(rings.size(), 1U);
    EXPECT_TRUE(rings[0].closed);
    EXPECT_NEAR(length_of(rings[0]), 4.242640687, 5e-10);
    EXPECT_NEAR(area_within(rings, plane), 1.299038106, 5e-10);
}

TEST(Slice, ThroughThreeCornersOfTheCubeIsATriangle) {
    const base::Plane plane{{1, 0, 0}, Eigen::Vector3d(1, 1, 1).normalized()};
    const auto rings = slice(made_up::unit_cube(), plane);
    ASSERT_EQ(rings.size(), 1U);
    EXPECT_NEAR(length_of(rings[0]), 3.0 * std::sqrt(2.0), 1e-12);
    EXPECT_NEAR(area_within(rings, plane), 0.5 * std::sqrt(3.0), 1e-12);
}

// Along the diagonals of two faces, which are edges of triangles there, or cross them.
TEST(Slice, ThroughFourCornersOfTheCubeIsARectangle) {
    for (const Eigen::Vector3d& normal : {Eigen::Vector3d(1, -1, 0), Eigen::Vector3d(1, 1, 0), Eigen::Vector3d(0, 1, -1)}) {
        const base::Plane plane{{0.5, 0.5, 0.5}, normal.normalized()};
        const auto rings = slice(made_up::unit_cube(), plane);
        ASSERT_EQ(rings.size(), 1U);
        EXPECT_NEAR(area_within(rings, plane), std::sqrt(2.0), 1e-12);
        EXPECT_NEAR(total_length(rings), 2.0 + 2.0 * std::sqrt(2.0), 1e-12);
    }
}

TEST(Slice, AlongAFaceIsTheFacesBorderOnce) {
    for (const double z : {0.0, 1.0}) {
        for (const double sense : {1.0, -1.0}) {
            const base::Plane plane{{0, 0, z}, {0, 0, sense}};
            const auto rings = slice(made_up::unit_cube(), plane);
            ASSERT_EQ(rings.size(), 1U) << z << ' ' << sense;
            EXPECT_NEAR(length_of(rings[0]), 4.0, 1e-12);
            EXPECT_NEAR(area_within(rings, plane), 1.0, 1e-12);
        }
    }
}

// Stairs: at the tread's level the section is that of the lower step, whose border runs round the tread and under the riser.
TEST(Slice, AtTheLevelOfATreadTheWholeStepIsInside) {
    const TriangleMesh stairs = made_up::stairs();
    ASSERT_NEAR(volume(stairs), 3.0, 1e-12);
    EXPECT_NEAR(area_within(slice(stairs, level(1.0)), level(1.0)), 2.0, 1e-12);
    EXPECT_NEAR(total_length(slice(stairs, level(1.0))), 6.0, 1e-12);
    TriangleMesh ceiling = stairs;  // upside down: the tread is a ceiling
    for (Eigen::Vector3d& point : ceiling.points) point = {point.x(), -point.y(), -point.z()};
    EXPECT_NEAR(area_within(slice(ceiling, level(-1.0)), level(-1.0)), 2.0, 1e-12);
    EXPECT_EQ(slice(ceiling, level(-1.0)).size(), 1U);
}

TEST(Slice, TouchingInAPointOrAnEdgeGivesNothing) {
    EXPECT_TRUE(slice(made_up::unit_cube(), {{0, 0, 0}, Eigen::Vector3d(1, 1, 1).normalized()}).empty());
    EXPECT_TRUE(slice(made_up::unit_cube(), {{1, 1, 1}, Eigen::Vector3d(1, 1, 1).normalized()}).empty());
    EXPECT_TRUE(slice(made_up::unit_cube(), {{0, 0, 0}, Eigen::Vector3d(1, 1, 0).normalized()}).empty());
    EXPECT_TRUE(slice(made_up::unit_cube(), {{1, 1, 0}, Eigen::Vector3d(1, 1, 0).normalized()}).empty());
    EXPECT_TRUE(slice(made_up::unit_cube(), level(2.0)).empty());
}

TEST(Slice, RingsRunAnticlockwiseHolesClockwise) {
    const TriangleMesh hollow = joined(made_up::box({-1, -1, -1}, {2, 2, 2}), reversed(made_up::unit_cube()));
    const auto rings = slice(hollow, level(0.5));
    ASSERT_EQ(rings.size(), 2U);
    EXPECT_NEAR(area_within(rings, level(0.5)), 8.0, 1e-12);
    EXPECT_NEAR(area_within({rings[0]}, level(0.5)), 9.0, 1e-12);
    EXPECT_NEAR(area_within({rings[1]}, level(0.5)), -1.0, 1e-12);
}

TEST(Slice, TwoCubesThatShareAnEdgePointStayTwoRings) {
    const TriangleMesh two = joined(made_up::unit_cube(), made_up::box({1, 1, 0}, {2, 2, 1}));
    const auto rings = slice(two, level(0.3));
    ASSERT_EQ(rings.size(), 2U);
    for (const SliceLine& ring : rings) EXPECT_NEAR(length_of(ring), 4.0, 1e-12);
}

TEST(Slice, StartsAtItsSmallestPoint) {
    const auto rings = slice(made_up::unit_cube(), level(0.5));
    ASSERT_EQ(rings.size(), 1U);
    EXPECT_EQ(rings[0].points.front(), Eigen::Vector3d(0, 0, 0.5));
}

TEST(Slice, OpenSurfaceGivesLinesAlsoAlongItsEdges) {
    TriangleMesh sheet;  // two squares side by side, z = x
    for (const double x : {0.0, 1.0, 2.0})
        for (const double y : {0.0, 1.0}) sheet.points.emplace_back(x, y, x);
    sheet.triangles = {{0, 2, 3}, {0, 3, 1}, {2, 4, 5}, {2, 5, 3}};
    for (const double x : {0.0, 0.5, 1.0, 1.7, 2.0}) {
        for (const double sense : {1.0, -1.0}) {
            const auto lines = slice(sheet, {{x, 0, 0}, {sense, 0, 0}});
            ASSERT_EQ(lines.size(), 1U) << x << ' ' << sense;
            EXPECT_FALSE(lines[0].closed);
            EXPECT_NEAR(length_of(lines[0]), 1.0, 1e-12);
            EXPECT_EQ(lines[0].points.front().y(), sense > 0 ? 1.0 : 0.0);  // what lies below the sheet is on the left
        }
    }
}

// Cavalieri: the areas of close slices add up to the volume.
TEST(Slice, AreasOfSlicesAddUpToTheVolume) {
    const auto made = made_up::walled_solid(7, 20.0);
    const Bounds box = bounds(made.solid);
    std::vector<base::Plane> planes;
    constexpr int count = 4000;
    const double step = (box.upper.x() - box.lower.x()) / count;
    for (int i = 0; i < count; ++i) planes.push_back({{box.lower.x() + (i + 0.5) * step, 0, 0}, {1, 0, 0}});
    double sum = 0.0;
    const auto sections = slices(made.solid, planes);
    for (std::size_t i = 0; i < planes.size(); ++i) sum += step * area_within(sections[i], planes[i]);
    EXPECT_NEAR(sum, volume(made.solid), 1e-4 * volume(made.solid));
}

// Planes through a vertex of the mesh, along its edges and triangles: rings always, and the area between those of planes beside.
TEST(Slice, ThroughVerticesAndTrianglesOfInventedSolidsEveryLineIsARing) {
    for (std::uint64_t number = 0; number < 20; ++number) {
        const auto made = made_up::walled_solid(number, 40.0);
        for (std::size_t t = 0; t < made.solid.triangles.size(); t += 17) {
            const auto& [a, b, c] = made.solid.triangles[t];
            const auto at = [&](int i) { return made.solid.points[static_cast<std::size_t>(i)]; };
            const Eigen::Vector3d along = at(b) - at(a), normal = along.cross(at(c) - at(a)).normalized();
            for (const Eigen::Vector3d& way :
                 {made_up::random_direction(t), along.cross(made_up::random_direction(t + 1)).normalized().eval(), normal}) {
                const base::Plane plane{at(a), way};
                const auto rings = slice(made.solid, plane);
                EXPECT_TRUE(std::all_of(rings.begin(), rings.end(), [](const SliceLine& ring) { return ring.closed; }));
                EXPECT_GE(area_within(rings, plane), -1e-9);
            }
        }
    }
}

TEST(Slice, SameLinesWhateverTheNumberOfThreads) {
    const auto made = made_up::walled_solid(3, 15.0);
    std::vector<base::Plane> planes;
    for (int i = 0; i < 40; ++i)
        planes.push_back({{-180.0 + 9.0 * i, 0, -100}, made_up::random_direction(static_cast<std::uint64_t>(i))});
    base::set_jobs(1);
    const auto alone = slices(made.solid, planes);
    base::set_jobs(2);
    const auto together = slices(made.solid, planes);
    base::set_jobs(0);
    ASSERT_EQ(alone.size(), together.size());
    std::size_t points = 0;
    for (std::size_t i = 0; i < alone.size(); ++i) {
        ASSERT_EQ(alone[i].size(), together[i].size());
        for (std::size_t k = 0; k < alone[i].size(); ++k) {
            EXPECT_EQ(alone[i][k].points, together[i][k].points);
            points += alone[i][k].points.size();
        }
    }
    EXPECT_GT(points, 100U);
}

}  // namespace
}  // namespace selvage::mesh
