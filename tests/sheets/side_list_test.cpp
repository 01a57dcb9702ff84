#include "sheets/side_list.h"

#include "sheets/made_up_pack.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <variant>

namespace selvage::sheets {
namespace {

TEST(SideList, RestsShareOneIndentPastTheLongestBoldPart) {
    const Tools tools = made_up_pack().tools();
    const std::vector<SideLine> lines = set_side_list({"1\tshort", "K-07W1A\thit behind", "no bold part"}, 68.0, tools);
    ASSERT_EQ(lines.size(), 3u);
    EXPECT_DOUBLE_EQ(lines[0].indent, lines[1].indent);
    EXPECT_GT(lines[1].indent, drawing::text_width_mm(tools.fonts, tools.style.text("body_strong"), "K-07W1A"));
    EXPECT_DOUBLE_EQ(lines[2].indent, 0.0);
}

TEST(SideList, ListsLabelsByTheirNumbersAndThoseWithoutOneLast) {
    EXPECT_EQ(listed_lines({{0, "K-04"}, {2, "K-02"}, {1, "K-01"}, {0, ""}, {0, "K-03"}}),
              (std::vector<std::string>{"1\tK-01", "2\tK-02", "K-04", "K-03"}));
}

TEST(SideList, LinesThatFindNoRoomLeaveTheirNames) {
    const std::vector<std::string> lines{"1\tCH-02 698: 1.5 m", "4\tCH-06 670: 1.6 m TW @ 427 g/t Ag", "5\tCH-07, CH-08 end here",
                                         "HC-16\tpasses off this drawing", "stopped short of it: CH-14, CH-15"};
    EXPECT_EQ(left_out_words(lines, 1, LeftOut::whole_lines),
              "also 4 CH-06 670; 5 CH-07, CH-08 end here; HC-16; stopped short of it: CH-14, CH-15: see the tables");
    EXPECT_EQ(left_out_words(lines, 1, LeftOut::names),
              "also 4 CH-06 670; 5 CH-07, CH-08 end here; HC-16; and more: see the tables");
    EXPECT_EQ(left_out_words(lines, 1, LeftOut::counted), "and more: see the tables");
    EXPECT_EQ(left_out_words({"one", "other"}, 0, LeftOut::counted), "and 2 more: see the tables");
}

TEST(SideList, AsManyRowsAreWrittenAsAreCounted) {
    const Tools tools = made_up_pack().tools();
    const std::vector<SideLine> lines = set_side_list(
        {"K-07\tstopped short of the vein, then deepened and stopped short of it once more in the next season", "K-08\t"}, 68.0,
        tools);
    EXPECT_EQ(rows_of(lines), 3u);
    double lowest = 0.0;
    for (const Mark& mark : side_list_marks(lines, {0.0, 0.0}, 3.5, tools))
        lowest = std::min(lowest, std::get<drawing::Text>(mark).at.y);
    EXPECT_DOUBLE_EQ(lowest, -3.5 * 2.0);
}

}  // namespace
}  // namespace selvage::sheets
