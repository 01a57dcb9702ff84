#include "settings/iso_date.h"

#include <gtest/gtest.h>

namespace selvage::settings {
namespace {

// Forms of ISO 8601:2004, 4.1.2.2 (calendar date, extended format).
TEST(IsoDate, TakesYearMonthDay) {
    EXPECT_EQ(iso_date("2026-11-20"), "2026-11-20");
    EXPECT_EQ(iso_date("  1984-06-04 "), "1984-06-04");
    EXPECT_EQ(iso_date("2026-11-20T08:15:00"), "2026-11-20");
    EXPECT_EQ(iso_date("2026-11-20 08:15"), "2026-11-20");
}

TEST(IsoDate, RefusesEveryOtherForm) {
    for (const char* text :
         {"", "20/11/2026", "11/20/2026", "2026-1-2", "20261120", "2026-11-2x", "2026-11-201", "20 Nov 2026", "-026-11-20"})
        EXPECT_EQ(iso_date(text), std::nullopt) << text;
}

// The Gregorian rule: 2000 was a leap year, 1900 was not.
TEST(IsoDate, KnowsHowManyDaysAMonthHas) {
    EXPECT_TRUE(iso_date("2000-02-29"));
    EXPECT_TRUE(iso_date("2024-02-29"));
    for (const char* text : {"1900-02-29", "2026-02-29", "2026-04-31", "2026-13-01", "2026-00-10", "2026-01-00", "2026-12-32"})
        EXPECT_FALSE(iso_date(text)) << text;
}

}  // namespace
}  // namespace selvage::settings
