#include "mesh/search.h"

#include "base/parallel.h"
#include "base/random.h"
#include "support/made_up_solids.h"

#include <gtest/gtest.h>

#include <Eigen/Geometry>

#include <algorithm>
#include <cmath>

namespace selvage::mesh {
namespace {

TEST(MeshSearch, DistancesFromACube) {
    const MeshSearch search(made_up::unit_cube());
    EXPECT_NEAR(search.nearest({2, 0.5, 0.5}).distance, 1.0, 1e-15);
    EXPECT_NEAR(search.nearest({2, 2, 2}).distance, std::sqrt(3.0), 1e-15);
    EXPECT_EQ(search.nearest({2, 2, 2}).point, Eigen::Vector3d(1, 1, 1));
    EXPECT_NEAR(search.signed_distance({0.5, 0.5, 0.4}), -0.4, 1e-15);
    EXPECT_NEAR(search.signed_distance({0.5, 0.5, 1.4}), 0.4, 1e-15);
    EXPECT_EQ(search.signed_distance({0.5, 0.5, 1.0}), 0.0);
}

// Also where the way out runs through edges and corners: planes of symmetry.
TEST(MeshSearch, InsideOutsideAndOnACube) {
    const MeshSearch search(made_up::unit_cube());
    for (double x = -0.5; x < 1.6; x += 0.25) {
        for (double y = -0.5; y < 1.6; y += 0.25) {
            for (double z = -0.5; z < 1.6; z += 0.25) {
                const Eigen::Vector3d point(x, y, z);
                const bool inside = point.minCoeff() > 0.0 && point.maxCoeff() < 1.0;
                const bool outside = point.minCoeff() < 0.0 || point.maxCoeff() > 1.0;
                EXPECT_EQ(search.where(point), inside    ? Where::inside
                                               : outside ? Where::outside
                                                         : Where::on_surface)
                    << point.transpose();
            }
        }
    }
}

TEST(MeshSearch, HitsAlongASegmentNearestFirst) {
    const MeshSearch search(made_up::unit_cube());
    const auto hits = search.hits({0.3, 0.2, -1}, {0.3, 0.2, 3});
    ASSERT_EQ(hits.size(), 2U);
    EXPECT_NEAR(hits[0].along, 1.0, 1e-15);
    EXPECT_NEAR(hits[1].along, 2.0, 1e-15);
    EXPECT_NEAR(search.first_hit({0.3, 0.2, 3}, {0.3, 0.2, -1})->along, 2.0, 1e-15);
    EXPECT_FALSE(search.first_hit({0.3, 0.2, 3}, {0.3, 0.2, 1.5}));
    EXPECT_FALSE(search.first_hit({0.3, 0.2, 3}, {0.3, 0.2, 3}));
    EXPECT_NEAR(search.first_hit({-1, 0.2, 1}, {3, 0.2, 1})->along, 1.0, 1e-15);  // along the upper face
}

// Against plain loops over all triangles.
TEST(MeshSearch, AgreesWithTryingEveryTriangle) {
    const auto made = made_up::walled_solid(5, 30.0);
    const MeshSearch search(made.solid);
    base::RandomStream stream("places to ask at", {1});
    const auto place = [&] {
        return Eigen::Vector3d(stream.uniform(-200, 200), stream.uniform(-200, 200), stream.uniform(-250, 50));
    };
    int crossed = 0;
    for (int i = 0; i < 300; ++i) {
        const Eigen::Vector3d from = place(), to = place();
        std::vector<double> along;
        double solid_angle = 0.0;
        for (const auto& triangle : made.solid.triangles) {
            const auto at = [&](std::size_t k) { return made.solid.points[static_cast<std::size_t>(triangle[k])]; };
            const Eigen::Vector3d a = at(0) - from, b = at(1) - from, c = at(2) - from, way = to - from;
            // Moller & Trumbore 1997; van Oosterom & Strackee 1983 (both from memory).
            Eigen::Matrix3d system;
            system << b - a, c - a, -way;
            const Eigen::Vector3d solution = system.inverse() * -a;
            if (solution.x() > 0 && solution.y() > 0 && solution.x() + solution.y() < 1 && solution.z() > 0 && solution.z() < 1)
                along.push_back(solution.z() * way.norm());
            const double la = a.norm(), lb = b.norm(), lc = c.norm();
            solid_angle += 2.0 * std::atan2(a.dot(b.cross(c)), la * lb * lc + a.dot(b) * lc + b.dot(c) * la + c.dot(a) * lb);
        }
        std::sort(along.begin(), along.end());
        const auto hits = search.hits(from, to);
        ASSERT_EQ(hits.size(), along.size());
        for (std::size_t k = 0; k < along.size(); ++k) EXPECT_NEAR(hits[k].along, along[k], 1e-9);
        crossed += along.empty() ? 0 : 1;
        EXPECT_EQ(search.where(from) == Where::inside, std::abs(solid_angle) > 6.0);
        for (const MeshHit& hit : hits) EXPECT_NEAR(search.nearest(hit.point).distance, 0.0, 1e-9);
    }
    EXPECT_GT(crossed, 30);
}

// In a thin solid: places half way between the walls are inside, those beyond them outside, by known distances of level walls.
TEST(MeshSearch, SignedDistanceInAPanelOfKnownThickness) {
    const TriangleMesh solid = made_up::box({0, 0, 0}, {100, 80, 0.002});
    const MeshSearch search(solid);
    EXPECT_NEAR(search.signed_distance({50, 40, 0.001}), -0.001, 1e-12);
    EXPECT_NEAR(search.signed_distance({50, 40, 5.002}), 5.0, 1e-12);
}

TEST(MeshSearch, SameAnswersFromManyThreads) {
    const auto made = made_up::walled_solid(9, 20.0);
    const MeshSearch search(made.solid);
    std::vector<double> alone(500), together(500);
    const auto ask = [&](std::size_t i) {
        base::RandomStream stream("places to ask at", {2, i});
        return search.signed_distance({stream.uniform(-200, 200), stream.uniform(-200, 200), stream.uniform(-200, 0)});
    };
    for (std::size_t i = 0; i < alone.size(); ++i) alone[i] = ask(i);
    base::parallel_for(together.size(), [&](std::size_t i) { together[i] = ask(i); });
    EXPECT_EQ(alone, together);
}

}  // namespace
}  // namespace selvage::mesh
