#include "base/calendar.h"

#include <cstddef>

namespace selvage::base {

namespace {

constexpr long days_in_400_years = 146097, days_to_1970 = 719468;  // from 0000-03-01

}  // namespace

std::optional<long> number_of_digits(std::string_view digits) {
    long number = 0;
    for (const char c : digits) {
        if (c < '0' || c > '9') return std::nullopt;
        number = 10 * number + (c - '0');
    }
    return number;
}

// Years are counted from March, so that a leap day is a year's last; month m of those begins on day (153 m + 2) / 5.
std::optional<long> day_number(std::string_view iso_date) {
    if (iso_date.size() != 10 || iso_date[4] != '-' || iso_date[7] != '-') return std::nullopt;
    const auto year = number_of_digits(iso_date.substr(0, 4)), month = number_of_digits(iso_date.substr(5, 2)),
               day = number_of_digits(iso_date.substr(8, 2));
    if (!year || !month || !day || *month < 1 || *month > 12) return std::nullopt;
    const long from_march = (*month + 9) % 12, years = *year - (*month < 3 ? 1 : 0);
    const long of_year = (153 * from_march + 2) / 5 + *day - 1;
    return 365 * years + years / 4 - years / 100 + years / 400 + of_year - days_to_1970;
}

std::string date_of_day(long days) {
    long rest = days + days_to_1970;
    const long era = rest / days_in_400_years;
    rest -= era * days_in_400_years;
    const long year_of_era = (rest - rest / 1460 + rest / 36524 - rest / 146096) / 365;
    const long of_year = rest - (365 * year_of_era + year_of_era / 4 - year_of_era / 100);
    const long from_march = (5 * of_year + 2) / 153;
    const long day = of_year - (153 * from_march + 2) / 5 + 1, month = from_march < 10 ? from_march + 3 : from_march - 9;
    const auto digits = [](long number, std::size_t count) {
        const std::string text = std::to_string(number);
        return std::string(count > text.size() ? count - text.size() : 0, '0') + text;
    };
    return digits(era * 400 + year_of_era + (month < 3 ? 1 : 0), 4) + "-" + digits(month, 2) + "-" + digits(day, 2);
}

}  // namespace selvage::base
