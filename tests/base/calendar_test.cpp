#include "base/calendar.h"

#include <gtest/gtest.h>

namespace selvage::base {
namespace {

// Day numbers by Python 3.11's datetime.date: (d - date(1970, 1, 1)).days.
TEST(Calendar, CountsDaysOfTheGregorianCalendar) {
    EXPECT_EQ(day_number("1970-01-01"), 0);
    EXPECT_EQ(day_number("1969-12-31"), -1);
    EXPECT_EQ(day_number("2000-02-29"), 11016);
    EXPECT_EQ(day_number("2000-03-01"), 11017);
    EXPECT_EQ(day_number("2026-11-20"), 20777);
    EXPECT_EQ(day_number("1900-03-01"), -25508);
}

TEST(Calendar, GivesTheDateOfEveryDayBack) {
    for (long day = -40000; day < 60000; day += 7) EXPECT_EQ(day_number(date_of_day(day)), day) << date_of_day(day);
    EXPECT_EQ(date_of_day(20777 - 7), "2026-11-13");
}

TEST(Calendar, KnowsNothingOfOtherTexts) {
    for (const char* text : {"", "20/11/2026", "2026-11", "2026-13-01", "2026-00-10", "2026-11-20T10"})
        EXPECT_FALSE(day_number(text).has_value()) << text;
}

}  // namespace
}  // namespace selvage::base
