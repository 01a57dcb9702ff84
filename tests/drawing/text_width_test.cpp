#include "drawing/text_width.h"

#include <gtest/gtest.h>

namespace selvage::drawing {
namespace {

// "i" is narrow, all other letters of ASCII and "é" are wide; nothing else can be drawn.
FontMetrics simple_metrics() {
    FontMetrics fonts;
    for (auto& advances : fonts.advances) {
        advances.assign(0x10000, 0);
        for (std::size_t code = 0x20; code < 0x7f; ++code) advances[code] = 500;
        advances['i'] = 250;
        advances[0xe9] = 500;
        advances[0x2026] = 1000;
    }
    return fonts;
}

const TextLook ten_points{10.0, FontFace::regular, {}};

TEST(TextWidth, IsTheSumOfTheAdvances) {
    const FontMetrics fonts = simple_metrics();
    EXPECT_NEAR(text_width_mm(fonts, ten_points, "aié"), 1.25 * 10.0 * 25.4 / 72.0, 1e-12);
    EXPECT_NEAR(cap_height_mm(fonts, ten_points), 0.714 * 10.0 * 25.4 / 72.0, 1e-12);
}

TEST(TextWidth, WhatCannotBeDrawnCountsAsItsQuestionMark) {
    const FontMetrics fonts = simple_metrics();
    EXPECT_EQ(drawable(fonts, FontFace::regular, "a\xe2\x86\x92\xf0\x9f\x98\x80\xff b"), "a??? b");
    EXPECT_EQ(drawable(fonts, FontFace::regular, "1\xc2\xa0m\tx\xe2\x80\x91y"), "1 m x-y");
    EXPECT_DOUBLE_EQ(text_width_mm(fonts, ten_points, "\xe2\x86\x92"), text_width_mm(fonts, ten_points, "?"));
    EXPECT_EQ(drawable(fonts, FontFace::regular, "cut \xe2\x86"), "cut ??");
    EXPECT_EQ(drawable(fonts, FontFace::regular, "\xc0\x80"), "??");  // an overlong form is no UTF-8
}

TEST(TextWidth, NamesTheLettersThatAFaceLacks) {
    const FontMetrics fonts = simple_metrics();
    EXPECT_EQ(missing_letters(fonts, FontFace::bold, "a?\xc3\xa9\xe2\x86\x92 \xf0\x9f\x98\x80\xff\xc2\xa0"),
              (std::vector<unsigned>{0x2192, 0x1f600}));
}

TEST(TextWidth, WrappedLinesFitAndLoseNoWord) {
    const FontMetrics fonts = simple_metrics();
    const double width = text_width_mm(fonts, ten_points, "aaaa bbbb");
    const auto lines = wrapped(fonts, ten_points, "aaaa bbbb cccc a-very-long-word-indeed dd\nee", width);
    EXPECT_EQ(lines, (std::vector<std::string>{"aaaa bbbb", "cccc", "a-very-", "long-", "word-", "indeed dd", "ee"}));
    EXPECT_EQ(wrapped(fonts, ten_points, "b aaaaaaaaaa\xc3\xa9\xc3\xa9\xc3\xa9 c", width),
              (std::vector<std::string>{"b", "aaaaaaaaa", "a\xc3\xa9\xc3\xa9\xc3\xa9 c"}));
    // No room for a single letter: one a line, and no letter lost.
    EXPECT_EQ(wrapped(fonts, ten_points, "aab", 0.1), (std::vector<std::string>{"a", "a", "b"}));
    EXPECT_TRUE(wrapped(fonts, ten_points, "  ", width).empty());
}

TEST(TextWidth, ShortenedTextFitsAndSaysSo) {
    const FontMetrics fonts = simple_metrics();
    const double width = text_width_mm(fonts, ten_points, "aaaaaa");
    EXPECT_EQ(shortened(fonts, ten_points, "aaaaaa", width), "aaaaaa");
    EXPECT_EQ(shortened(fonts, ten_points, "aaa éaaaa", width), "aaa…");
    EXPECT_LE(text_width_mm(fonts, ten_points, shortened(fonts, ten_points, "ééééééééé", width)), width);
}

}  // namespace
}  // namespace selvage::drawing
