#include "sheets/running_text.h"

#include "sheets/made_up_pack.h"

#include <gtest/gtest.h>

#include <string>

namespace selvage::sheets {
namespace {

std::string words_of_marks(const Marks& marks) {
    std::string words;
    for (const Mark& mark : marks)
        if (const auto* text = std::get_if<drawing::Text>(&mark)) words += text->text + " ";
    return words;
}

std::string many_words(const std::string& stem, int count) {
    std::string words;
    for (int i = 0; i < count; ++i) words += (i > 0 ? " " : "") + stem + std::to_string(i);
    return words;
}

TEST(RunningText, SetsWholeParagraphsAsLongAsThereIsRoom) {
    const Tools tools = made_up_pack().tools();
    const std::vector<Paragraph> paragraphs{{"One", many_words("first", 40), "somewhere", true},
                                            {"Two", many_words("second", 40)}};
    const double height = paragraphs_height(paragraphs, 80.0, tools);
    const SetText all = set_paragraphs(paragraphs, {0.0, 0.0, 80.0, height}, tools);
    EXPECT_EQ(all.count, 2u);
    EXPECT_NEAR(all.bottom, 0.0, 1e-9);
    const SetText one = set_paragraphs(paragraphs, {0.0, 0.0, 80.0, 0.7 * height}, tools);
    EXPECT_EQ(one.count, 1u);
    EXPECT_EQ(words_of_marks(one.marks).find("second"), std::string::npos);
    for (const Mark& mark : all.marks) {
        const auto* text = std::get_if<drawing::Text>(&mark);
        if (text == nullptr) continue;
        EXPECT_LE(text->at.x + drawing::text_width_mm(tools.fonts, text->look, text->text), 80.0 + 0.01);
    }
}

TEST(RunningText, FillsColumnsWithEveryWordInOrder) {
    const Tools tools = made_up_pack().tools();
    std::vector<TextSection> sections;
    std::string expected;
    for (int i = 0; i < 12; ++i) {
        const std::string heading = "Heading" + std::to_string(i), text = many_words("w" + std::to_string(i) + "x", 150);
        sections.push_back({heading, {text}});
        expected += heading + " " + text + " ";
    }
    const std::vector<Marks> pages = set_in_columns(sections, {0.0, 0.0, 300.0, 150.0}, 3, tools);
    ASSERT_GT(pages.size(), 1u);
    std::string set;
    for (const Marks& page : pages) {
        set += words_of_marks(page);
        for (const Mark& mark : page)
            if (const auto* text = std::get_if<drawing::Text>(&mark)) {
                EXPECT_GE(text->at.y, -0.01);
                EXPECT_LE(text->at.y, 150.0);
            }
    }
    EXPECT_EQ(set, expected);
}

TEST(RunningText, LeavesNoHeadingAtTheFootOfAColumn) {
    const Tools tools = made_up_pack().tools();
    for (int words = 20; words < 160; words += 7) {
        const std::vector<TextSection> sections{{"First", {many_words("a", words)}}, {"Last", {many_words("b", 90)}}};
        const std::vector<Marks> pages = set_in_columns(sections, {0.0, 0.0, 200.0, 60.0}, 2, tools);
        double heading_x = -1.0, heading_y = 0.0, next_x = -2.0;
        for (const Marks& page : pages)
            for (const Mark& mark : page) {
                const auto* text = std::get_if<drawing::Text>(&mark);
                if (text == nullptr) continue;
                if (heading_x >= 0.0 && next_x < -1.0) next_x = text->at.x;
                if (text->text == "Last") {
                    heading_x = text->at.x;
                    heading_y = text->at.y;
                }
            }
        EXPECT_EQ(heading_x, next_x) << words << " words, heading at " << heading_y;
    }
}

}  // namespace
}  // namespace selvage::sheets
