#include "mesh/triangle_mesh.h"

#include "mesh/solid_check.h"
#include "support/made_up_solids.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>

namespace selvage::mesh {
namespace {

// Regular solids: any table of the Platonic solids (from memory), by edge 1 but the tetrahedron's (edge 2 sqrt 2).
TEST(TriangleMesh, RegularSolidsHaveTheVolumeAndAreaOfTheTables) {
    EXPECT_NEAR(volume(made_up::tetrahedron()), 8.0 / 3.0, 1e-12);
    EXPECT_NEAR(area(made_up::tetrahedron()), 13.856406461, 5e-10);
    EXPECT_NEAR(volume(made_up::octahedron()), 0.471404521, 5e-10);
    EXPECT_NEAR(area(made_up::octahedron()), 3.464101615, 5e-10);
    EXPECT_NEAR(volume(made_up::icosahedron()), 2.181694991, 5e-10);
    EXPECT_NEAR(area(made_up::icosahedron()), 8.660254038, 5e-10);
}

// Simpson's rule is exact for a prismatoid: (60 + 4 x 28 + 8) x 3 / 6. The formula of the frustum gives 89.9089: it holds for
// similar ends alone.
TEST(TriangleMesh, PrismatoidIsExact) { EXPECT_NEAR(volume(made_up::prismatoid({10, 6}, {4, 2}, 3)), 90.0, 1e-12); }

// 120 x 80 m x the mean thickness of 1.5 m.
TEST(TriangleMesh, PanelOfLinearThicknessIsExactHoweverFineItsMesh) {
    for (const double longest_edge : {200.0, 30.0, 5.0}) EXPECT_NEAR(volume(made_up::panel(longest_edge)), 14400.0, 1e-6);
}

TEST(TriangleMesh, VolumeKeepsItsDigitsFarFromTheOrigin) {
    TriangleMesh cube = made_up::unit_cube();
    for (Eigen::Vector3d& point : cube.points) point += Eigen::Vector3d(577000, 6081000, 2000);
    EXPECT_NEAR(volume(cube), 1.0, 1e-12);
}

TEST(TriangleMesh, ReversedCountsItsVolumeNegative) {
    EXPECT_NEAR(volume(reversed(made_up::box({0, 0, 0}, {2, 3, 4}))), -24.0, 1e-12);
}

TEST(TriangleMesh, BorderIsWhatLacksANeighbour) {
    TriangleMesh cube = made_up::unit_cube();
    EXPECT_TRUE(border(cube).empty());
    cube.triangles.erase(cube.triangles.begin());
    EXPECT_EQ(border(cube).size(), 3U);
}

TEST(TriangleMesh, PiecesComeApartLargestFirst) {
    const TriangleMesh both = joined(made_up::unit_cube(), made_up::box({5, 0, 0}, {7, 2, 2}));
    const auto parts = pieces(both);
    ASSERT_EQ(parts.size(), 2U);
    EXPECT_NEAR(volume(parts[0]), 8.0, 1e-12);
    EXPECT_NEAR(volume(parts[1]), 1.0, 1e-12);
    EXPECT_EQ(parts[1].points.size(), 8U);
}

TEST(TriangleMesh, FixedOrderForgetsTheOrderGiven) {
    TriangleMesh one = made_up::walled_solid(1, 50.0).solid;
    TriangleMesh other = one;
    std::reverse(other.triangles.begin(), other.triangles.end());
    std::reverse(other.labels.begin(), other.labels.end());
    std::reverse(other.points.begin(), other.points.end());
    const int last = static_cast<int>(other.points.size()) - 1;
    for (auto& [a, b, c] : other.triangles) {
        const std::array<int, 3> turned = {last - b, last - c, last - a};
        a = turned[0], b = turned[1], c = turned[2];
    }
    const TriangleMesh first = in_fixed_order(one), second = in_fixed_order(other);
    EXPECT_EQ(first.points, second.points);
    EXPECT_EQ(first.triangles, second.triangles);
    EXPECT_EQ(first.labels, second.labels);
    EXPECT_NEAR(volume(first), volume(one), 1e-9 * volume(one));
}

TEST(TriangleMesh, PointsOnAWallHaveTheWallsLabel) {
    const TriangleMesh solid = made_up::panel(10.0);
    const std::vector<int> labels = labels_of_points(solid, {upper_wall, lower_wall}, rim);
    const std::size_t half = labels.size() / 2;  // solid_between puts the upper wall's points first
    for (std::size_t i = 0; i < labels.size(); ++i) EXPECT_EQ(labels[i], i < half ? upper_wall : lower_wall);
}

TEST(SolidCheck, NamesWhatIsWrong) {
    const TriangleMesh cube = made_up::unit_cube();
    EXPECT_TRUE(check_solid(cube).sound());
    EXPECT_EQ(words_of(check_solid(cube)), "sound");

    TriangleMesh open = cube;
    open.triangles.pop_back();
    EXPECT_EQ(words_of(check_solid(open)), "not closed");
    EXPECT_FALSE(check_solid({}).closed);

    EXPECT_EQ(words_of(check_solid(reversed(cube))), "closed, but looks inward");

    const TriangleMesh overlapping = joined(cube, made_up::box({0.5, 0.5, 0.5}, {2, 2, 2}));
    EXPECT_EQ(words_of(check_solid(overlapping)), "closed, but crosses or touches itself");
    EXPECT_GE(check_solid(overlapping).crossing[0], 0);

    const TriangleMesh touching = joined(cube, made_up::box({1, 0, 0}, {2, 1, 1}));
    EXPECT_FALSE(check_solid(touching).free_of_crossings);

    const TriangleMesh one_in_another = joined(made_up::box({-1, -1, -1}, {2, 2, 2}), cube);
    EXPECT_EQ(words_of(check_solid(one_in_another)), "closed, but its pieces overlap or look in different directions");
    EXPECT_TRUE(check_solid(joined(made_up::box({-1, -1, -1}, {2, 2, 2}), reversed(cube))).sound());
}

TEST(SolidCheck, NotFiniteOrWithoutPlaceIsNotClosed) {
    TriangleMesh cube = made_up::unit_cube();
    cube.points[0].x() = std::nan("");
    EXPECT_FALSE(is_closed(cube));
    TriangleMesh other = made_up::unit_cube();
    other.triangles[0][0] = 99;
    EXPECT_FALSE(is_closed(other));
}

}  // namespace
}  // namespace selvage::mesh
