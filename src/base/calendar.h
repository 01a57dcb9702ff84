#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace selvage::base {

// The number that digits write; nothing where anything else stands among them. 0 of none.
std::optional<long> number_of_digits(std::string_view digits);

// Days of the Gregorian calendar since 1970-01-01 of a date as ISO 8601 writes it ("2026-11-20"); nothing for any other text. The
// day itself is taken as it stands: whether the month has it is for who reads it in.
std::optional<long> day_number(std::string_view iso_date);

// The date of such a number of days, "2026-11-20".
std::string date_of_day(long days);

}  // namespace selvage::base
