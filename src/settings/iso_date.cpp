#include "settings/iso_date.h"

#include "base/calendar.h"
#include "base/text.h"

namespace selvage::settings {

namespace {

constexpr std::size_t date_length = 10;  // 2026-11-20

long days_of(long year, long month) {
    const bool leap = (year % 4 == 0 && year % 100 != 0) || year % 400 == 0;
    if (month == 2) return leap ? 29 : 28;
    return month == 4 || month == 6 || month == 9 || month == 11 ? 30 : 31;
}

}  // namespace

std::optional<std::string> iso_date(std::string_view text) {
    const std::string_view date = base::trimmed_view(text);
    if (date.size() < date_length || date[4] != '-' || date[7] != '-') return std::nullopt;
    if (date.size() > date_length && date[date_length] != 'T' && date[date_length] != ' ') return std::nullopt;
    const std::optional<long> year = base::number_of_digits(date.substr(0, 4));
    const std::optional<long> month = base::number_of_digits(date.substr(5, 2));
    const std::optional<long> day = base::number_of_digits(date.substr(8, 2));
    if (!year || !month || !day || *month < 1 || *month > 12 || *day < 1 || *day > days_of(*year, *month)) return std::nullopt;
    return std::string(date.substr(0, date_length));
}

}  // namespace selvage::settings
