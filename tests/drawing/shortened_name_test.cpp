#include "drawing/shortened_name.h"

#include "support/label_cases.h"

#include <gtest/gtest.h>

namespace selvage::drawing {
namespace {

const TextLook look{10.0, FontFace::regular, {}};

TEST(ShortenedName, KeepsItsStartAndTheEndThatTellsItFromOthers) {
    const FontMetrics fonts = made_up::plain_metrics();  // every letter half as wide as its size
    const double letter = text_width_mm(fonts, look, "a");
    EXPECT_EQ(shortened_name(fonts, look, "Northeastern-104", 16.0 * letter), "Northeastern-104");
    EXPECT_EQ(shortened_name(fonts, look, "Northeastern-104", 13.0 * letter), "Northeas…-104");
    EXPECT_EQ(shortened_name(fonts, look, "ÄÖÜÄÖÜÄÖÜß", 4.0 * letter + 0.01), "ÄÖ…ß");
    EXPECT_EQ(shortened_name(fonts, look, "abc", 0.1), "…");
}

}  // namespace
}  // namespace selvage::drawing
