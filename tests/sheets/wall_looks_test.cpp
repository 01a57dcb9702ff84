#include "sheets/wall_looks.h"

#include "sheets/made_up_pack.h"
#include "sheets/question_marks.h"

#include <gtest/gtest.h>

#include <cmath>

namespace selvage::sheets {
namespace {

veins::TracePoint place(double mid, double low80, double high80, double sd) {
    veins::TracePoint point;
    point.mid = {mid, 0.0, 0.0};
    point.low80 = {low80, 0.0, 0.0};
    point.high80 = {high80, 0.0, 0.0};
    point.sd = sd;
    return point;
}

TEST(DrawnSd, IsTheModelsWhereTheDrawnVeinStandsInTheMiddleOfItsBand) {
    EXPECT_DOUBLE_EQ(drawn_sd(place(5.0, 3.0, 7.0, 1.5)), 1.5);
}

// A hit of little known place leads the drawn vein 10 m off the model: whoever trusts the line is 10 m off, whatever the model's
// sd.
TEST(DrawnSd, GrowsByWhatTheDrawnVeinIsLedOffItsBand) {
    EXPECT_DOUBLE_EQ(drawn_sd(place(15.0, 3.0, 7.0, 0.0)), 10.0);
    EXPECT_NEAR(drawn_sd(place(15.0, 3.0, 7.0, 1.5)), std::hypot(10.0, 1.5), 1e-12);
    EXPECT_EQ(wall_style(1.5, 2.0), WallStyle::accurate);
    EXPECT_EQ(wall_style(drawn_sd(place(15.0, 3.0, 7.0, 1.5)), 2.0), WallStyle::inferred);
}

TEST(QuestionMarks, StandEvenlyAndNeverOnThoseOfTheOtherWall) {
    const Tools tools = made_up_pack().tools();
    const double every = tools.style.size_mm("question_every");
    std::vector<drawing::Text> marks;
    EXPECT_EQ(add_question_marks(marks, {{0.0, 0.0}, {5.0 * every, 0.0}}, {0, 0, 0}, tools), 5u);
    EXPECT_EQ(add_question_marks(marks, {{0.0, 1.0}, {5.0 * every, 1.0}}, {0, 0, 0}, tools), 0u);
    EXPECT_EQ(add_question_marks(marks, {{0.0, 9.0}, {5.0 * every, 9.0}}, {0, 0, 0}, tools), 5u);
    for (std::size_t i = 1; i < 5; ++i) EXPECT_NEAR(marks[i].at.x - marks[i - 1].at.x, every, 1e-9);
}

}  // namespace
}  // namespace selvage::sheets
