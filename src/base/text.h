#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

// Text and numbers without a locale.
namespace selvage::base {

// Without blanks (space, tab, CR, no-break space) at both ends.
std::string trimmed(std::string_view text);
std::string_view trimmed_view(std::string_view text);
// Trimmed and in lower case (ASCII letters, and the two-byte Latin, Greek and Cyrillic capitals), the form in which names are
// compared.
std::string folded(std::string_view text);
// True where the bytes are well-formed UTF-8.
bool is_utf8(std::string_view text);
// Windows-1252 bytes as UTF-8.
std::string utf8_from_windows_1252(std::string_view bytes);

// A whole text as a finite number (an optional sign, digits, point, exponent); nothing where anything else stands in it.
std::optional<double> parse_number(std::string_view text, char decimal = '.');

// Fixed decimals, ties away from zero in decimal, point, no exponent, never "-0". NaN and infinity give "".
std::string fixed(double value, int decimals);
// So many significant digits, no exponent, no trailing zeros after the point, never "-0". NaN and infinity give "".
std::string significant(double value, int digits);

// The nearest of `words` by edit distance, where it is near enough to be a typing error (at most a third of its letters).
std::optional<std::string> nearest_word(std::string_view typed, const std::vector<std::string>& words);
// The nearest of `words`, however far; the first of several; empty where there are none.
std::string closest_word(std::string_view typed, const std::vector<std::string>& words);

// Letters a-z, figures and single hyphens: a name made fit for a file name.
std::string file_name_part(std::string_view name);

}  // namespace selvage::base
