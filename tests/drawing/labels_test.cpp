#include "drawing/labels.h"

#include "support/label_cases.h"
#include "support/label_faults.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <string>

namespace selvage::drawing {
namespace {

using made_up::fan_case;
using made_up::label_at;
using made_up::LabelCase;
using made_up::plain_metrics;
using made_up::random_labels;

const LabelRules& rules = made_up::label_rules();

void expect_clean(const LabelCase& made, const PlacedLabels& placed) { EXPECT_EQ(made_up::faults_of(made, placed), ""); }

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
        const LabelCase made = random_labels(number, 30 + 8 * number);
        expect_clean(made, place_labels(made.labels, made.obstacles, rules, fonts));
    }
}

TEST(Labels, WhatIsPlantedIsFoundByTheCheckItself) {
    const LabelCase made = random_labels(3, 60);
    const PlacedLabels sound = place_labels(made.labels, made.obstacles, rules, plain_metrics());
    ASSERT_EQ(made_up::faults_of(made, sound), "");
    const auto has = [&](const PlacedLabels& placed, const char* said) {
        return made_up::faults_of(made, placed).find(said) != std::string::npos;
    };
    PlacedLabels planted = sound;
    planted.labels[0].box = planted.labels[1].box;
    EXPECT_TRUE(has(planted, "on another label"));
    planted = sound;
    planted.labels[2].box.left = 0.0;
    EXPECT_TRUE(has(planted, "outside of the window"));
    planted = sound;
    planted.labels.pop_back();
    EXPECT_TRUE(has(planted, "lost"));
    planted = sound;
    const auto led = [](const PlacedLabel& label) { return label.placing == Placing::leader; };
    const auto first = std::find_if(planted.labels.begin(), planted.labels.end(), led);
    ASSERT_NE(first, planted.labels.end());
    const auto second = std::find_if(first + 1, planted.labels.end(), led);
    ASSERT_NE(second, planted.labels.end());
    first->leader = {{50.0, 50.0}, {60.0, 60.0}};
    second->leader = {{50.0, 60.0}, {60.0, 50.0}};
    EXPECT_TRUE(has(planted, "crosses another"));
    ++planted.figures.listed;
    EXPECT_TRUE(has(planted, "figures"));
}

TEST(Labels, MostStandBesideTheirPointsWhereThereIsRoom) {
    const FontMetrics fonts = plain_metrics();
    std::size_t beside = 0, listed = 0, all = 0;
    for (std::uint64_t number = 0; number < 10; ++number) {
        const LabelCase made = fan_case(number);
        const auto placed = place_labels(made.labels, made.obstacles, rules, fonts);
        expect_clean(made, placed);
        beside += placed.figures.beside;
        listed += placed.figures.listed;
        all += placed.figures.wanted;
    }
    EXPECT_GE(static_cast<double>(beside), 0.8 * static_cast<double>(all));
    EXPECT_EQ(listed, 0u);
}

// Words nearer to another's point than to their own would seem the other's: they have a leader.
TEST(Labels, ADoubtfulPlaceGivesWayToALeader) {
    const FontMetrics fonts = plain_metrics();
    const auto placing = [&](const Point& other) {
        Obstacles around;  // that leaves free the right of the point alone
        around.boxes = {{100.0, 90.0, 107.0, 110.0}, {107.0, 105.0, 140.0, 110.0}, {107.0, 90.0, 140.0, 95.0}};
        around.points = {other};
        Label label = label_at({108.0, 100.0}, 1);
        label.clear_mm = 0.6;
        return place_labels({label}, around, rules, fonts).labels[0].placing;
    };
    EXPECT_EQ(placing({108.0, 130.0}), Placing::beside);
    EXPECT_EQ(placing({108.9, 100.0}), Placing::leader);
}

TEST(Labels, ThePriorOneKeepsItsPlaceAndTheOtherIsLed) {
    const FontMetrics fonts = plain_metrics();
    // A slot between walls that holds one label only; at its other end the other point, whose words it could not seem.
    Obstacles walls;
    for (double y = 97.0; y < 106.0; y += 0.5)
        for (const double x : {104.0, 143.0}) walls.boxes.push_back({x, y, x + 1.0, y + 0.5});
    walls.boxes.push_back({104.0, 96.0, 144.0, 97.0});
    walls.boxes.push_back({104.0, 106.0, 144.0, 107.0});
    std::vector<Label> labels{label_at({139.0, 100.0}, 1), label_at({108.0, 102.5}, 4)};
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

// Where its words find no room, a name that does stands at the point in place of a number; one too long for that gets its number.
TEST(Labels, WhatIsListedKeepsItsShortLineAtItsPoint) {
    const FontMetrics fonts = plain_metrics();
    std::vector<Label> labels{label_at({60.0, 60.0}, 3), label_at({70.0, 60.0}, 1)};
    for (Label& label : labels) {
        label.lines.insert(label.lines.end(), 8, label.lines.front());  // higher than the window
        label.may_lead = false;
    }
    labels[0].short_line = {"K1", {7.0, FontFace::bold, {}}, {{"!", {7.0, FontFace::bold, {}}}}};
    labels[1].short_line = {std::string(80, 'w'), {7.0, FontFace::bold, {}}, {}};
    const LabelRules low{{40.0, 50.0, 100.0, 70.0}};
    const auto placed = place_labels(labels, {}, low, fonts);
    for (const PlacedLabel& label : placed.labels) EXPECT_EQ(label.placing, Placing::listed);
    EXPECT_TRUE(placed.labels[0].in_short);
    EXPECT_EQ(placed.labels[0].number, 0u);
    const auto texts = texts_of(labels[0], placed.labels[0], low, fonts, 0.0);
    ASSERT_EQ(texts.size(), 2u);
    EXPECT_EQ(texts[0].text + texts[1].text, "K1!");
    EXPECT_FALSE(placed.labels[1].in_short);
    EXPECT_EQ(placed.labels[1].number, 1u);
    EXPECT_EQ(placed.figures.listed, 2u);
    EXPECT_EQ(placed.figures.overlaps, 0u);
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
    const LabelCase made = random_labels(7, 120);
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
