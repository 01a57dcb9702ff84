#include "drawing/clipping.h"

#include "base/random.h"
#include "drawing/polyline.h"

#include <gtest/gtest.h>

#include <cmath>

namespace selvage::drawing {
namespace {

const Box window{0.0, 0.0, 10.0, 5.0};

double area_of(const std::vector<Point>& ring) {
    double twice = 0.0;
    for (std::size_t i = 0; i < ring.size(); ++i) {
        const Point &a = ring[i], &b = ring[(i + 1) % ring.size()];
        twice += a.x * b.y - b.x * a.y;
    }
    return std::abs(twice) / 2.0;
}

double length_of_all(const std::vector<std::vector<Point>>& pieces) {
    double length = 0.0;
    for (const auto& piece : pieces) length += length_of(piece);
    return length;
}

TEST(Clipping, ALineThroughTheBoxKeepsWhatLiesWithin) {
    const auto pieces = clipped_line({{-5.0, 2.0}, {15.0, 2.0}}, window);
    ASSERT_EQ(pieces.size(), 1u);
    EXPECT_NEAR(pieces[0].front().x, 0.0, 1e-12);
    EXPECT_NEAR(pieces[0].back().x, 10.0, 1e-12);
}

TEST(Clipping, ALineThatLeavesAndComesBackIsTwoPieces) {
    const auto pieces = clipped_line({{1.0, 1.0}, {1.0, 8.0}, {3.0, 8.0}, {3.0, 1.0}, {4.0, 1.0}}, window);
    ASSERT_EQ(pieces.size(), 2u);
    EXPECT_NEAR(length_of_all(pieces), 4.0 + 5.0, 1e-12);
    EXPECT_EQ(pieces[1].size(), 3u);
}

TEST(Clipping, ALineOutsideLeavesNothing) {
    EXPECT_TRUE(clipped_line({{-1.0, -1.0}, {-1.0, 9.0}, {20.0, 9.0}}, window).empty());
    EXPECT_FALSE(touches({{-1.0, 4.0}, {1.0, 8.0}}, window));
}

TEST(Clipping, InsideAndOutsideMakeTheWholeLine) {
    base::RandomStream random("clipping", {1});
    for (int trial = 0; trial < 200; ++trial) {
        std::vector<Point> line;
        for (int i = 0; i < 6; ++i) line.push_back({random.uniform(-5.0, 15.0), random.uniform(-5.0, 10.0)});
        EXPECT_NEAR(length_of_all(clipped_line(line, window)) + length_of_all(line_outside(line, {window})), length_of(line),
                    1e-9);
    }
}

TEST(Clipping, ALineIsBrokenRoundWordsThatOverlap) {
    const auto pieces = line_outside({{0.0, 0.0}, {20.0, 0.0}, {20.0, 5.0}}, {{3.0, -1.0, 6.0, 1.0}, {5.0, -1.0, 8.0, 1.0}});
    ASSERT_EQ(pieces.size(), 2u);
    EXPECT_NEAR(length_of_all(pieces), 20.0, 1e-12);
    EXPECT_EQ(pieces[1].size(), 3u);
}

TEST(Clipping, APolygonsPartsAgreeWithItsArea) {
    const std::vector<Point> triangle{{-2.0, -2.0}, {12.0, 1.0}, {4.0, 9.0}};
    double sum = 0.0;
    for (int column = -1; column < 3; ++column)
        for (int row = -1; row < 3; ++row)
            sum += area_of(clipped_polygon(triangle, {column * 5.0, row * 5.0, column * 5.0 + 5.0, row * 5.0 + 5.0}));
    EXPECT_NEAR(sum, area_of(triangle), 1e-9);
}

TEST(Clipping, SegmentsMeetWhereTheyCross) {
    const auto at = crossing({{0.0, 0.0}, {4.0, 4.0}}, {{0.0, 4.0}, {4.0, 0.0}});
    ASSERT_TRUE(at);
    EXPECT_NEAR(at->x, 2.0, 1e-12);
    EXPECT_FALSE(crossing({{0.0, 0.0}, {1.0, 1.0}}, {{0.0, 4.0}, {4.0, 0.0}}));
    EXPECT_FALSE(crossing({{0.0, 0.0}, {1.0, 1.0}}, {{1.0, 0.0}, {2.0, 1.0}}));
}

TEST(Clipping, HatchFillsAnAreaWithAHole) {
    const std::vector<std::vector<Point>> rings{{{0.0, 0.0}, {10.0, 0.0}, {10.0, 10.0}, {0.0, 10.0}},
                                                {{4.0, 4.0}, {6.0, 4.0}, {6.0, 6.0}, {4.0, 6.0}}};
    double length = 0.0;
    for (const Segment& stroke : hatch(rings, 0.7, 0.05)) {
        length += std::hypot(stroke.b.x - stroke.a.x, stroke.b.y - stroke.a.y);
        EXPECT_TRUE(inside({(stroke.a.x + stroke.b.x) / 2.0, (stroke.a.y + stroke.b.y) / 2.0}, rings));
    }
    EXPECT_NEAR(length * 0.05, 96.0, 0.3);
}

}  // namespace
}  // namespace selvage::drawing
