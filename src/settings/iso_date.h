#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace selvage::settings {

// A date as ISO 8601 writes it, "2026-11-20", of the Gregorian calendar, blanks at both ends dropped; a time of day after "T" or
// a blank is dropped too. Nothing for every other form: 20/11/2026 and 11/20/2026 cannot be told apart.
std::optional<std::string> iso_date(std::string_view text);

}  // namespace selvage::settings
