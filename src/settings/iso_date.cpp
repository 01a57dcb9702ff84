#include "settings/iso_date.h"

#include "base/text.h"

#include <algorithm>

namespace selvage::settings {

namespace {

constexpr std::size_t date_length = 10;  // 2026-11-20

bool is_digit(char c) { return c >= '0' && c <= '9'; }

int days_of(int year, int month) {
    const bool leap = (year % 4 == 0 && year % 100 != 0) || year % 400 == 0;
    if (month == 2) return leap ? 29 : 28;
    return month == 4 || month == 6 || month == 9 || month == 11 ? 30 : 31;
}

}  // namespace

std::optional<std::string> iso_date(std::string_view text) {
    const std::string date = base::trimmed(text);
    if (date.size() < date_length || date[4] != '-' || date[7] != '-') return std::nullopt;
    if (date.size() > date_length && date[date_length] != 'T' && date[date_length] != ' ') return std::nullopt;
    for (const std::size_t i : {0U, 1U, 2U, 3U, 5U, 6U, 8U, 9U})
        if (!is_digit(date[i])) return std::nullopt;
    const int year = std::stoi(date.substr(0, 4));
    const int month = std::stoi(date.substr(5, 2));
    const int day = std::stoi(date.substr(8, 2));
    if (month < 1 || month > 12 || day < 1 || day > days_of(year, month)) return std::nullopt;
    return date.substr(0, date_length);
}

}  // namespace selvage::settings
