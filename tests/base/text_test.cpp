#include "base/text.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

namespace selvage::base {
namespace {

TEST(Text, NamesAreFoldedWithoutBlanksAndCase) {
    EXPECT_EQ(folded("  K-07 \t"), "k-07");
    EXPECT_EQ(folded("\xc2\xa0Ä-1\xc2\xa0"), "ä-1");
    EXPECT_EQ(folded("ČESKÝ"), "český");
}

TEST(Text, Utf8IsToldFromOtherBytes) {
    EXPECT_TRUE(is_utf8("Größe 3 µm"));
    EXPECT_FALSE(is_utf8("Gr\xf6\xdf"));
    EXPECT_FALSE(is_utf8("\xc0\xaf"));
    EXPECT_FALSE(is_utf8("\xed\xa0\x80"));
    EXPECT_EQ(utf8_from_windows_1252("Gr\xf6\xdf\x80"), "Größ€");
}

TEST(Numbers, AreReadWholeOrNotAtAll) {
    EXPECT_EQ(parse_number(" 12.5 "), 12.5);
    EXPECT_EQ(parse_number("+3"), 3.0);
    EXPECT_EQ(parse_number("1e3"), 1000.0);
    EXPECT_EQ(parse_number("12,5", ','), 12.5);
    for (const char* wrong : {"", " ", "12a", "1 2", "+-3", "nan", "inf", "1,5", "0x10", "--1"})
        EXPECT_FALSE(parse_number(wrong)) << wrong;
    EXPECT_FALSE(parse_number("1.234,5", ','));
}

TEST(Numbers, TiesAreRoundedAwayFromZero) {
    EXPECT_EQ(fixed(2.25, 1), "2.3");
    EXPECT_EQ(fixed(-2.25, 1), "-2.3");
    EXPECT_EQ(fixed(0.125, 2), "0.13");
    EXPECT_EQ(fixed(1.005, 2), "1.01");
    EXPECT_EQ(fixed(2.5, 0), "3");
    EXPECT_EQ(fixed(2.2499999, 1), "2.2");
    EXPECT_EQ(fixed(9.995, 2), "10.00");
}

TEST(Numbers, ThereIsNoMinusZeroAndNoNaN) {
    EXPECT_EQ(fixed(-0.04, 1), "0.0");
    EXPECT_EQ(fixed(-0.0, 3), "0.000");
    EXPECT_EQ(fixed(std::nan(""), 2), "");
    EXPECT_EQ(fixed(std::numeric_limits<double>::infinity(), 2), "");
    EXPECT_EQ(significant(std::nan(""), 3), "");
}

TEST(Numbers, SignificantDigitsCarryNoExponent) {
    EXPECT_EQ(significant(1234567.0, 6), "1234570");
    EXPECT_EQ(significant(0.000123456789, 6), "0.000123457");
    EXPECT_EQ(significant(412.0, 6), "412");
    EXPECT_EQ(significant(1.5, 6), "1.5");
    EXPECT_EQ(significant(0.0, 6), "0");
    EXPECT_EQ(significant(-1e-7, 2), "-0.0000001");
}

TEST(Words, ATypingErrorFindsItsWord) {
    EXPECT_EQ(nearest_word("declinaton", {"date", "declination", "decimal"}), "declination");
    EXPECT_FALSE(nearest_word("wholly different", {"date", "declination"}));
}

TEST(Words, AFileNameHasLettersFiguresAndHyphens) {
    EXPECT_EQ(file_name_part("North Vein (2)"), "north-vein-2");
    EXPECT_EQ(file_name_part("///"), "unnamed");
}

TEST(ClosestWord, IsGivenHoweverFarItIs) {
    EXPECT_EQ(closest_word("wholly different", {"date", "declination"}), "declination");
    EXPECT_EQ(closest_word("dote", {"date", "dots"}), "date") << "the first of two that are as near";
    EXPECT_EQ(closest_word("x", {}), "");
}

TEST(Utf8, IsJudgedAlikeWhereverTheOddByteStands) {
    for (std::size_t at = 0; at < 20; ++at) {
        std::string text(20, 'a');
        text[at] = '\xff';
        EXPECT_FALSE(is_utf8(text)) << at;
        EXPECT_TRUE(is_utf8(std::string(at, 'a') + "\xc3\xa9" + std::string(20 - at, 'b'))) << at;
        EXPECT_FALSE(is_utf8(std::string(at, 'a') + "\xc3")) << at;
    }
}

}  // namespace
}  // namespace selvage::base
