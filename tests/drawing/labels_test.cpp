#include "drawing/labels.h"

#include "base/random.h"
#include "drawing/clipping.h"
#include "drawing/label_choice.h"

#include <gtest/gtest.h>

#include <cmath>

namespace selvage::drawing {
namespace {

// Every character half as wide as its size.
FontMetrics plain_metrics() {
    FontMetrics fonts;
    for (auto& advances : fonts.advances) advances.assign(0x10000, 500);
    return fonts;
}

const LabelRules rules{{10.0, 10.0, 300.0, 250.0}};

Label label_at(Point at, int priority, const std::string& second_line = "1.5 m TW @ 885 g/t Ag") {
    Label label;
    label.owner = "hole";
    label.at = at;
    label.priority = priority;
    label.lines = {{"AB-10", {8.0, FontFace::bold, {}}}, {second_line, {7.0, FontFace::regular, {}}}};
    return label;
}

struct Case {
    std::vector<Label> labels;
    Obstacles obstacles;
};

// Points in a few clusters, traces through them.
Case random_case(std::uint64_t number, std::size_t count) {
    base::RandomStream random("label test", {number});
    Case made;
    for (std::size_t i = 0; i < count; ++i) {
        const double spread = i % 3 == 0 ? 120.0 : 40.0;
        const Point at{155.0 + spread * random.uniform(-1.0, 1.0), 130.0 + spread * random.uniform(-0.9, 0.9)};
        Label label = label_at(at, static_cast<int>(random.below(6)));
        if (i % 4 == 0) {
            label.head_symbol = "ring";
            label.head_mm = 2.5;
        }
        made.labels.push_back(label);
    }
    for (std::size_t i = 0; i < count / 4; ++i) {
        Point at{random.uniform(20.0, 200.0), 240.0};
        for (int step = 0; step < 30; ++step) {
            const Point next{at.x + random.uniform(0.5, 4.0), at.y - random.uniform(2.0, 8.0)};
            made.obstacles.lines.push_back({at, next});
            at = next;
        }
    }
    return made;
}

void expect_clean(const Case& made, const PlacedLabels& placed) {
    ASSERT_EQ(placed.labels.size(), made.labels.size());
    EXPECT_EQ(placed.figures.overlaps, 0u);
    EXPECT_EQ(placed.figures.crossings, 0u);
    const auto shown = [](const PlacedLabel& p) { return p.placing != Placing::listed || p.number > 0; };
    for (std::size_t i = 0; i < placed.labels.size(); ++i) {
        const PlacedLabel& one = placed.labels[i];
        if (!shown(one)) continue;
        EXPECT_GE(one.box.left, rules.window.left);
        EXPECT_LE(one.box.top, rules.window.top);
        for (const Segment& line : made.obstacles.lines) EXPECT_FALSE(touches(line, one.box));
        for (const Label& label : made.labels)
            EXPECT_FALSE(overlap(one.box, grown({label.at.x, label.at.y, label.at.x, label.at.y}, label.clear_mm)));
        for (std::size_t j = i + 1; j < placed.labels.size(); ++j) {
            const PlacedLabel& other = placed.labels[j];
            if (!shown(other)) continue;
            EXPECT_FALSE(overlap(one.box, other.box)) << i << ' ' << j;
            if (one.placing != Placing::leader || other.placing != Placing::leader) continue;
            EXPECT_FALSE(crossing({one.leader[0], one.leader[1]}, {other.leader[0], other.leader[1]}));
        }
        if (one.placing != Placing::leader) continue;
        EXPECT_LE(std::hypot(one.leader[1].x - one.leader[0].x, one.leader[1].y - one.leader[0].y), rules.leader_max_mm + 1e-9);
    }
}

TEST(Labels, ASingleLabelStandsRightAndAboveItsPoint) {
    const FontMetrics fonts = plain_metrics();
    const auto placed = place_labels({label_at({150.0, 100.0}, 3)}, {}, rules, fonts);
    EXPECT_EQ(placed.labels[0].placing, Placing::beside);
    EXPECT_GT(placed.labels[0].box.left, 150.0);
    EXPECT_GT(placed.labels[0].box.bottom, 100.0);
}

TEST(Labels, NothingOverlapsAndNoLeadersCrossOnCrowdedSheets) {
    const FontMetrics fonts = plain_metrics();
    for (std::uint64_t number = 0; number < 20; ++number) {
        const Case made = random_case(number, 30 + 8 * number);
        expect_clean(made, place_labels(made.labels, made.obstacles, rules, fonts));
    }
}

// Points along a few holes that fan out, as on a section: there is room, if it is used.
Case fan_case(std::uint64_t number) {
    base::RandomStream random("label fan test", {number});
    Case made;
    for (int hole = 0; hole < 6; ++hole) {
        const Point collar{20.0 + 40.0 * hole, 240.0};
        const double slope = random.uniform(0.3, 0.9);
        const auto at_depth = [&](double depth) { return Point{collar.x + slope * depth, collar.y - depth}; };
        for (int step = 0; step < 40; ++step) made.obstacles.lines.push_back({at_depth(5.0 * step), at_depth(5.0 * step + 5.0)});
        for (int hit = 0; hit < 3; ++hit) {
            const Point at = at_depth(random.uniform(10.0, 190.0));
            if (at.x < rules.window.right - 5.0) made.labels.push_back(label_at(at, 3));
        }
    }
    return made;
}

TEST(Labels, MostStandBesideTheirPointsWhereThereIsRoom) {
    const FontMetrics fonts = plain_metrics();
    std::size_t beside = 0, listed = 0, all = 0;
    for (std::uint64_t number = 0; number < 10; ++number) {
        const Case made = fan_case(number);
        const auto placed = place_labels(made.labels, made.obstacles, rules, fonts);
        expect_clean(made, placed);
        beside += placed.figures.beside;
        listed += placed.figures.listed;
        all += placed.figures.wanted;
    }
    EXPECT_GE(static_cast<double>(beside), 0.8 * static_cast<double>(all));
    EXPECT_EQ(listed, 0u);
}

TEST(Labels, ThePriorOneKeepsItsPlaceAndTheOtherIsLed) {
    const FontMetrics fonts = plain_metrics();
    // A slot between walls that holds one label only.
    Obstacles walls;
    for (double y = 97.0; y < 106.0; y += 0.5)
        for (const double x : {104.0, 143.0}) walls.boxes.push_back({x, y, x + 1.0, y + 0.5});
    walls.boxes.push_back({104.0, 96.0, 144.0, 97.0});
    walls.boxes.push_back({104.0, 106.0, 144.0, 107.0});
    std::vector<Label> labels{label_at({108.0, 100.0}, 1), label_at({108.0, 102.5}, 4)};
    for (Label& label : labels) label.clear_mm = 0.6;
    const auto placed = place_labels(labels, walls, rules, fonts);
    EXPECT_EQ(placed.labels[1].placing, Placing::beside);
    EXPECT_NE(placed.labels[0].placing, Placing::beside);
}

TEST(Labels, WhatFindsNoRoomIsListedWithANumberAndDroppedOnlyWhereAllowed) {
    const FontMetrics fonts = plain_metrics();
    std::vector<Label> labels{label_at({60.0, 60.0}, 3), label_at({70.0, 60.0}, 1)};
    labels[1].may_be_listed = false;
    for (Label& label : labels) label.may_lead = false;
    const LabelRules tight{{55.0, 55.0, 75.0, 65.0}};
    const auto placed = place_labels(labels, {}, tight, fonts);
    EXPECT_EQ(placed.labels[0].placing, Placing::listed);
    EXPECT_EQ(placed.labels[0].number, 1u);
    const auto texts = texts_of(labels[0], placed.labels[0], tight, fonts, 0.0);
    ASSERT_EQ(texts.size(), 1u);
    EXPECT_EQ(texts[0].text, "1");
    EXPECT_EQ(placed.labels[1].number, 0u);
    EXPECT_TRUE(texts_of(labels[1], placed.labels[1], tight, fonts, 0.0).empty());
    EXPECT_EQ(placed.figures.listed, 1u);
}

TEST(Labels, TextsStayWithinTheirBoxAndTheHeadStandsClearOfThem) {
    const FontMetrics fonts = plain_metrics();
    Label label = label_at({60.0, 60.0}, 3);
    label.head_symbol = "star";
    label.head_mm = 4.2;
    label.lines[0].rest = {{"370", {7.0, FontFace::regular, {}}}, {"new", {7.0, FontFace::semibold, {}}, true}};
    for (const Point at : {Point{60.0, 60.0}, Point{298.0, 60.0}}) {
        label.at = at;
        const auto placed = place_labels({label}, {}, rules, fonts).labels[0];
        ASSERT_NE(placed.placing, Placing::listed);
        const Point head = head_of(label, placed, rules, fonts);
        const auto texts = texts_of(label, placed, rules, fonts, 0.45);
        EXPECT_EQ(texts.size(), 4u);
        for (const Text& text : texts) {
            const double right = text.at.x + text_width_mm(fonts, text.look, text.text);
            EXPECT_GE(text.at.x, placed.box.left - 1e-9);
            EXPECT_LE(right, placed.box.right + 1e-9);
            EXPECT_GE(text.at.y, placed.box.bottom);
            EXPECT_LE(text.at.y + cap_height_mm(fonts, text.look), placed.box.top);
            EXPECT_TRUE(head.x + 2.1 < text.at.x || head.x - 2.1 > right);
        }
        EXPECT_EQ(frames_of(label, placed, rules, fonts).size(), 1u);
    }
}

TEST(Labels, TheSameInputGivesTheSamePlaces) {
    const FontMetrics fonts = plain_metrics();
    const Case made = random_case(7, 120);
    const auto first = place_labels(made.labels, made.obstacles, rules, fonts);
    const auto second = place_labels(made.labels, made.obstacles, rules, fonts);
    for (std::size_t i = 0; i < first.labels.size(); ++i) {
        EXPECT_EQ(first.labels[i].placing, second.labels[i].placing);
        EXPECT_EQ(first.labels[i].box.left, second.labels[i].box.left);
        EXPECT_EQ(first.labels[i].box.top, second.labels[i].box.top);
    }
}

TEST(Labels, ANameOfALineStandsAtAnotherOfItsPointsWhereTheFirstIsBlocked) {
    Label label = label_at({100.0, 100.0}, 3);
    label.may_lead = label.may_be_listed = false;
    Obstacles obstacles;
    obstacles.boxes.push_back({60.0, 80.0, 140.0, 120.0});
    EXPECT_EQ(place_labels({label}, obstacles, rules, plain_metrics()).labels.front().placing, Placing::listed);
    label.also_at = {{110.0, 100.0}, {200.0, 100.0}};
    const PlacedLabel placed = place_labels({label}, obstacles, rules, plain_metrics()).labels.front();
    EXPECT_EQ(placed.placing, Placing::beside);
    EXPECT_LT(std::abs((placed.box.left + placed.box.right) / 2.0 - 200.0), 30.0);
}

TEST(Labels, ADearSoftLineIsLeftFree) {
    Label label = label_at({100.0, 100.0}, 1);
    label.may_lead = label.may_be_listed = false;
    Obstacles obstacles;
    for (double y = 60.0; y < 140.0; y += 2.0) obstacles.soft_lines.push_back({{50.0, y}, {150.0, y}});
    EXPECT_EQ(place_labels({label}, obstacles, rules, plain_metrics()).labels.front().placing, Placing::beside);
    label.soft_weight = 10.0;
    EXPECT_EQ(place_labels({label}, obstacles, rules, plain_metrics()).labels.front().placing, Placing::listed);
}

}  // namespace
}  // namespace selvage::drawing
