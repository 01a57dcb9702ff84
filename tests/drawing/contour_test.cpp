#include "drawing/contour.h"

#include "drawing/clipping.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

namespace selvage::drawing {
namespace {

constexpr double infinity = std::numeric_limits<double>::infinity();

ValueGrid grid_of(std::size_t columns, std::size_t rows, double step, double (*value)(double, double)) {
    ValueGrid grid{{-1.0, -1.0}, step, step, columns, rows, {}};
    for (std::size_t r = 0; r < rows; ++r)
        for (std::size_t c = 0; c < columns; ++c)
            grid.values.push_back(
                value(grid.first.x + step * static_cast<double>(c), grid.first.y + step * static_cast<double>(r)));
    return grid;
}

double signed_area_of(const std::vector<Point>& ring) {
    double twice = 0.0;
    for (std::size_t i = 0; i < ring.size(); ++i) {
        const Point &a = ring[i], &b = ring[(i + 1) % ring.size()];
        twice += a.x * b.y - b.x * a.y;
    }
    return twice / 2.0;
}

double signed_area_of(const std::vector<std::vector<Point>>& rings) {
    double sum = 0.0;
    for (const auto& ring : rings) sum += signed_area_of(ring);
    return sum;
}

double cone(double x, double y) { return std::hypot(x, y); }
double plane(double x, double y) { return x + 0.5 * y; }
double waves(double x, double y) { return std::sin(7.0 * x) * std::cos(5.0 * y) + 0.1 * x; }

TEST(Contour, ALevelOfAConeIsOneRoundRing) {
    const auto lines = contour_lines(grid_of(81, 81, 0.025, cone), 0.7);
    ASSERT_EQ(lines.size(), 1u);
    EXPECT_TRUE(lines[0].closed);
    for (const Point& p : lines[0].points) EXPECT_NEAR(std::hypot(p.x, p.y), 0.7, 2e-4);
    // Higher values lie to the left: the ring runs clockwise round its low middle.
    EXPECT_NEAR(signed_area_of(lines[0].points), -3.14159265 * 0.49, 2e-3);
}

TEST(Contour, ALevelOfAPlaneIsOneStraightOpenLine) {
    const auto lines = contour_lines(grid_of(21, 21, 0.1, plane), 0.33);
    ASSERT_EQ(lines.size(), 1u);
    EXPECT_FALSE(lines[0].closed);
    for (const Point& p : lines[0].points) EXPECT_NEAR(plane(p.x, p.y), 0.33, 1e-12);
    EXPECT_NEAR(std::abs(lines[0].points.front().y - lines[0].points.back().y), 2.0, 1e-9);
}

TEST(Contour, AreasBetweenLevelsFillTheGridWithoutOverlap) {
    const ValueGrid grid = grid_of(57, 43, 0.035, waves);
    double sum = 0.0;
    const std::vector<double> levels{-infinity, -0.5, 0.0, 0.3, infinity};
    for (std::size_t i = 1; i < levels.size(); ++i) sum += signed_area_of(contour_area(grid, levels[i - 1], levels[i]));
    EXPECT_NEAR(sum, 56 * 0.035 * 42 * 0.035, 1e-9);
}

TEST(Contour, AnAreaHoldsExactlyThePlacesOfItsValues) {
    const ValueGrid grid = grid_of(57, 43, 0.035, waves);
    const auto rings = contour_area(grid, -0.2, 0.4);
    for (std::size_t r = 0; r < grid.rows; r += 2)
        for (std::size_t c = 0; c < grid.columns; c += 2) {
            const double value = grid.at(c, r);
            if (c == 0 || r == 0 || c + 1 == grid.columns || r + 1 == grid.rows || std::abs(value + 0.2) < 1e-6) continue;
            const Point at{grid.first.x + 0.035 * static_cast<double>(c), grid.first.y + 0.035 * static_cast<double>(r)};
            EXPECT_EQ(inside(at, rings), value >= -0.2 && value < 0.4) << at.x << ' ' << at.y;
        }
}

TEST(Contour, PlateausAtTheLevelCountAsAbove) {
    ValueGrid grid{{0.0, 0.0}, 1.0, 1.0, 3, 3, {0, 0, 0, 0, 1, 1, 0, 1, 1}};
    EXPECT_NEAR(signed_area_of(contour_area(grid, 1.0, infinity)), 1.0, 1e-12);
    ASSERT_EQ(contour_lines(grid, 1.0).size(), 1u);
}

TEST(Contour, ASaddleIsSplitByItsMiddle) {
    const ValueGrid high_middle{{0.0, 0.0}, 1.0, 1.0, 2, 2, {1, 0, 0, 1.2}};
    const ValueGrid low_middle{{0.0, 0.0}, 1.0, 1.0, 2, 2, {1, 0, 0, 0.6}};
    EXPECT_EQ(contour_area(high_middle, 0.5, infinity).size(), 1u);
    EXPECT_EQ(contour_area(low_middle, 0.5, infinity).size(), 2u);
}

TEST(Contour, CellsRoundAMissingValueAreLeftOut) {
    ValueGrid grid = grid_of(11, 11, 0.2, plane);
    grid.values[5 * 11 + 5] = std::numeric_limits<double>::quiet_NaN();
    const auto rings = contour_area(grid, -infinity, infinity);
    EXPECT_EQ(rings.size(), 2u);
    EXPECT_NEAR(signed_area_of(rings), 4.0 - 0.16, 1e-12);
    for (const auto& ring : rings) EXPECT_LE(ring.size(), 40u);
}

}  // namespace
}  // namespace selvage::drawing
