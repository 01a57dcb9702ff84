#include "sheets/isolines.h"

#include "drawing/clipping.h"

#include <gtest/gtest.h>

#include <cmath>

namespace selvage::sheets {
namespace {

constexpr double step = 2.0;

// A field over 400 x 300 m from the lower left corner, solid and drawn within `near` and `far` metres of any hit.
VeinField field_of(double (*log_value)(const Eigen::Vector2d&), const std::vector<Eigen::Vector2d>& hits, double near,
                   double far) {
    VeinField field;
    field.step = step;
    field.across = 201;
    field.up = 151;
    for (std::size_t row = 0; row < field.up; ++row)
        for (std::size_t column = 0; column < field.across; ++column) {
            const Eigen::Vector2d place = field.place(column, row);
            double nearest = 1e9;
            for (const Eigen::Vector2d& hit : hits) nearest = std::min(nearest, (hit - place).norm());
            field.log_value.push_back(log_value(place));
            field.drawn.push_back(far - nearest);
            field.solid.push_back(std::min(near - nearest, field.drawn.back()));
        }
    return field;
}

// One metre is one millimetre, the field's corner at the window's.
PaperFrame field_frame() { return {{0.0, 0.0, 400.0, 300.0}, {200.0, 150.0}, 1.0}; }

double lone_hill(const Eigen::Vector2d& place) {
    return 2.0 * std::exp(-(place - Eigen::Vector2d(200, 150)).squaredNorm() / 800.0);
}
double ramp(const Eigen::Vector2d& place) { return place.x() / 100.0; }
double lone_hollow(const Eigen::Vector2d& place) { return 2.0 - lone_hill(place); }

TEST(Isolines, NoneClosesRoundASingleHit) {
    const std::vector<Eigen::Vector2d> hits{{200, 150}, {80, 150}, {320, 150}};
    for (const auto shape : {lone_hill, lone_hollow}) {
        VeinField field = field_of(shape, hits, 150.0, 200.0);
        ASSERT_FALSE(cut_isolines(field, {1.0}, field_frame()).lines.empty());
        level_lone_parts(field, {0.5, 1.0, 1.5}, hits);
        EXPECT_TRUE(cut_isolines(field, {0.5, 1.0, 1.5}, field_frame()).lines.empty());
    }
}

TEST(Isolines, AHillWithTwoHitsKeepsItsLine) {
    const std::vector<Eigen::Vector2d> hits{{194, 150}, {206, 150}, {80, 150}, {320, 150}};
    VeinField field = field_of(lone_hill, hits, 150.0, 200.0);
    level_lone_parts(field, {1.0}, hits);
    EXPECT_FALSE(cut_isolines(field, {1.0}, field_frame()).lines.empty());
}

// A rise that one hit alone stands on runs off the drawn ground, open: no line rests on it. With a second hit there it does.
TEST(Isolines, NoneIsOpenRoundASingleHit) {
    std::vector<Eigen::Vector2d> hits{{320, 150}, {80, 150}, {100, 160}};
    VeinField field = field_of(ramp, hits, 150.0, 200.0);
    ASSERT_FALSE(cut_isolines(field, {2.0}, field_frame()).lines.empty());
    level_lone_parts(field, {2.0}, hits);
    EXPECT_TRUE(cut_isolines(field, {2.0}, field_frame()).lines.empty());
    hits.emplace_back(300, 140);
    field = field_of(ramp, hits, 150.0, 200.0);
    level_lone_parts(field, {2.0}, hits);
    EXPECT_FALSE(cut_isolines(field, {2.0}, field_frame()).lines.empty());
}

TEST(Isolines, EndAtTheExtrapolationDistance) {
    const std::vector<Eigen::Vector2d> hits{{190, 150}, {230, 170}};
    const VeinField field = field_of(ramp, hits, 30.0, 60.0);
    const Isolines isolines = cut_isolines(field, {2.0}, field_frame());
    ASSERT_FALSE(isolines.lines.empty());
    bool solid = false, dashed = false;
    for (const Isoline& line : isolines.lines) {
        (line.solid ? solid : dashed) = true;
        for (const Point& point : line.points) {
            double nearest = 1e9;
            for (const Eigen::Vector2d& hit : hits) nearest = std::min(nearest, (hit - Eigen::Vector2d(point.x, point.y)).norm());
            EXPECT_LE(nearest, (line.solid ? 30.0 : 60.0) + 0.1);
            EXPECT_NEAR(point.x, 200.0, 0.1);  // where the ramp is 2
        }
    }
    EXPECT_TRUE(solid);
    EXPECT_TRUE(dashed);
}

// Contours are straight within a cell of the field, whose corners are 0.3 mm off at the most.
TEST(Isolines, TintsStayWhereLinesAreSolid) {
    constexpr double of_the_grid = 0.3;  // m, and mm here
    const std::vector<Eigen::Vector2d> hits{{190, 150}, {230, 170}};
    const Isolines isolines = cut_isolines(field_of(ramp, hits, 30.0, 60.0), {2.0}, field_frame());
    ASSERT_EQ(isolines.tints.size(), 1u);
    for (const auto& ring : isolines.tints.front().rings)
        for (const Point& point : ring) {
            double nearest = 1e9;
            for (const Eigen::Vector2d& hit : hits) nearest = std::min(nearest, (hit - Eigen::Vector2d(point.x, point.y)).norm());
            EXPECT_LE(nearest, 30.0 + of_the_grid);
            EXPECT_GE(point.x, 200.0 - of_the_grid);
        }
    EXPECT_TRUE(drawing::inside({225.0, 165.0}, isolines.tints.front().rings));
    EXPECT_FALSE(drawing::inside({185.0, 150.0}, isolines.tints.front().rings));
}

}  // namespace
}  // namespace selvage::sheets
