#include "base/text.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <cstdint>
#include <cstring>
#include <numeric>

namespace selvage::base {

namespace {

bool is_blank(char c) { return c == ' ' || c == '\t' || c == '\r' || c == '\n'; }

// Code points of Windows-1252 bytes 0x80 to 0x9f (Unicode consortium mapping table CP1252); undefined ones map to U+FFFD.
constexpr std::array<std::uint16_t, 32> windows_1252_high = {0x20ac, 0xfffd, 0x201a, 0x0192, 0x201e, 0x2026, 0x2020, 0x2021,
                                                             0x02c6, 0x2030, 0x0160, 0x2039, 0x0152, 0xfffd, 0x017d, 0xfffd,
                                                             0xfffd, 0x2018, 0x2019, 0x201c, 0x201d, 0x2022, 0x2013, 0x2014,
                                                             0x02dc, 0x2122, 0x0161, 0x203a, 0x0153, 0xfffd, 0x017e, 0x0178};

void append_utf8(std::string& out, unsigned code) {
    if (code < 0x80U) {
        out += static_cast<char>(code);
    } else if (code < 0x800U) {
        out += static_cast<char>(0xc0U | (code >> 6U));
        out += static_cast<char>(0x80U | (code & 0x3fU));
    } else {
        out += static_cast<char>(0xe0U | (code >> 12U));
        out += static_cast<char>(0x80U | ((code >> 6U) & 0x3fU));
        out += static_cast<char>(0x80U | (code & 0x3fU));
    }
}

// Lower case of one two-byte code point: Latin-1, Greek and Cyrillic capitals.
unsigned lower_code(unsigned code) {
    if (code >= 0xc0U && code <= 0xdeU && code != 0xd7U) return code + 0x20U;
    if (code >= 0x391U && code <= 0x3a9U) return code + 0x20U;
    if (code >= 0x410U && code <= 0x42fU) return code + 0x20U;
    if (code >= 0x100U && code <= 0x17fU && code != 0x130U && code != 0x131U) {
        const bool odd_is_lower = code < 0x139U || (code >= 0x14aU && code <= 0x177U);
        if (odd_is_lower && code % 2U == 0U) return code + 1U;
        if (!odd_is_lower && code % 2U == 1U && code != 0x149U && code != 0x17fU) return code + 1U;
    }
    return code;
}

// Digits of |value| rounded to `decimals`, ties away from zero as the shortest decimal writing of the number shows them.
std::string rounded_digits(double value, int decimals) {
    const std::string shortest = fmt::format("{}", std::abs(value));
    if (shortest.find('e') == std::string::npos) {
        const std::size_t point = shortest.find('.');
        const std::size_t have = point == std::string::npos ? 0 : shortest.size() - point - 1;
        // A tie in the shortest decimal form is pushed up by a hair, so that 2.25 gives 2.3.
        if (have == static_cast<std::size_t>(decimals) + 1 && shortest.back() == '5')
            return fmt::format("{:.{}f}", std::nextafter(std::abs(value) + std::pow(10.0, -(decimals + 4)), INFINITY), decimals);
    }
    return fmt::format("{:.{}f}", std::abs(value), decimals);
}

// Eight plain letters from here on: most of a table, passed at one look.
bool eight_ascii_at(std::string_view text, std::size_t i) {
    if (i + 8 > text.size()) return false;
    std::uint64_t bytes = 0;
    std::memcpy(&bytes, text.data() + i, sizeof bytes);
    return (bytes & 0x8080808080808080U) == 0;
}

// Letters put in, left out or changed to turn one word into the other.
std::size_t edit_distance(std::string_view a, std::string_view b) {
    std::vector<std::size_t> row(b.size() + 1);
    std::iota(row.begin(), row.end(), std::size_t{0});
    for (std::size_t i = 1; i <= a.size(); ++i) {
        std::size_t diagonal = row[0];
        row[0] = i;
        for (std::size_t j = 1; j <= b.size(); ++j) {
            const std::size_t change = diagonal + (a[i - 1] == b[j - 1] ? 0U : 1U);
            diagonal = row[j];
            row[j] = std::min({row[j] + 1, row[j - 1] + 1, change});
        }
    }
    return row[b.size()];
}

}  // namespace

std::string_view trimmed_view(std::string_view text) {
    constexpr std::string_view no_break_space = "\xc2\xa0";
    for (;;) {
        const std::size_t before = text.size();
        while (!text.empty() && is_blank(text.front())) text.remove_prefix(1);
        while (!text.empty() && is_blank(text.back())) text.remove_suffix(1);
        if (text.substr(0, 2) == no_break_space) text.remove_prefix(2);
        if (text.size() >= 2 && text.substr(text.size() - 2) == no_break_space) text.remove_suffix(2);
        if (text.size() == before) return text;
    }
}

std::string trimmed(std::string_view text) { return std::string(trimmed_view(text)); }

std::string folded(std::string_view text) {
    const std::string source = trimmed(text);
    std::string out;
    out.reserve(source.size());
    for (std::size_t i = 0; i < source.size(); ++i) {
        const auto byte = static_cast<unsigned char>(source[i]);
        if (byte < 0x80U) {
            out += byte >= 'A' && byte <= 'Z' ? static_cast<char>(byte + 32) : static_cast<char>(byte);
        } else if ((byte & 0xe0U) == 0xc0U && i + 1 < source.size()) {
            const unsigned code = ((byte & 0x1fU) << 6U) | (static_cast<unsigned char>(source[i + 1]) & 0x3fU);
            append_utf8(out, lower_code(code));
            ++i;
        } else {
            out += source[i];
        }
    }
    return out;
}

bool is_utf8(std::string_view text) {
    for (std::size_t i = 0; i < text.size();) {
        if (eight_ascii_at(text, i)) {
            i += 8;
            continue;
        }
        const auto lead = static_cast<unsigned char>(text[i]);
        const std::size_t length = lead < 0x80U   ? 1
                                   : lead < 0xc2U ? 0
                                   : lead < 0xe0U ? 2
                                   : lead < 0xf0U ? 3
                                   : lead < 0xf5U ? 4
                                                  : 0;
        if (length == 0 || i + length > text.size()) return false;
        for (std::size_t k = 1; k < length; ++k)
            if ((static_cast<unsigned char>(text[i + k]) & 0xc0U) != 0x80U) return false;
        const auto second = length > 1 ? static_cast<unsigned char>(text[i + 1]) : 0U;
        if (lead == 0xe0U && second < 0xa0U) return false;
        if (lead == 0xedU && second > 0x9fU) return false;
        if (lead == 0xf0U && second < 0x90U) return false;
        if (lead == 0xf4U && second > 0x8fU) return false;
        i += length;
    }
    return true;
}

std::string utf8_from_windows_1252(std::string_view bytes) {
    std::string out;
    out.reserve(bytes.size() + bytes.size() / 8);
    for (const char c : bytes) {
        const auto byte = static_cast<unsigned char>(c);
        append_utf8(out, byte >= 0x80U && byte < 0xa0U ? windows_1252_high[byte - 0x80U] : byte);
    }
    return out;
}

std::optional<double> parse_number(std::string_view text, char decimal) {
    while (!text.empty() && is_blank(text.front())) text.remove_prefix(1);
    while (!text.empty() && is_blank(text.back())) text.remove_suffix(1);
    if (!text.empty() && text.front() == '+' && text.size() > 1 && text[1] != '-') text.remove_prefix(1);
    if (text.empty()) return std::nullopt;
    std::string with_point;
    if (decimal != '.') {
        with_point.assign(text);
        if (with_point.find('.') != std::string::npos) return std::nullopt;
        std::replace(with_point.begin(), with_point.end(), decimal, '.');
        text = with_point;
    }
    double value = 0.0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    if (error != std::errc() || end != text.data() + text.size() || !std::isfinite(value)) return std::nullopt;
    return value;
}

std::string fixed(double value, int decimals) {
    if (!std::isfinite(value)) return {};
    const std::string digits = rounded_digits(value, decimals);
    const bool zero = digits.find_first_not_of("0.") == std::string::npos;
    return value < 0.0 && !zero ? "-" + digits : digits;
}

std::string significant(double value, int digits) {
    if (!std::isfinite(value)) return {};
    if (value == 0.0) return "0";
    const int magnitude = static_cast<int>(std::floor(std::log10(std::abs(value))));
    const int decimals = digits - 1 - magnitude;
    if (decimals < 0) {
        const double unit = std::pow(10.0, -decimals);
        return fixed(std::round(value / unit) * unit, 0);
    }
    std::string text = fixed(value, decimals);
    if (text.find('.') != std::string::npos) {
        text.erase(text.find_last_not_of('0') + 1);
        if (text.back() == '.') text.pop_back();
    }
    return text;
}

std::optional<std::string> nearest_word(std::string_view typed, const std::vector<std::string>& words) {
    std::optional<std::string> best;
    std::size_t least = 0;
    for (const std::string& word : words) {
        const std::size_t d = edit_distance(typed, word);
        if (d > std::max<std::size_t>(1, word.size() / 3)) continue;
        if (!best || d < least) {
            best = word;
            least = d;
        }
    }
    return best;
}

std::string closest_word(std::string_view typed, const std::vector<std::string>& words) {
    const auto nearer = [&](const std::string& a, const std::string& b) {
        return edit_distance(typed, a) < edit_distance(typed, b);
    };
    const auto best = std::min_element(words.begin(), words.end(), nearer);
    return best == words.end() ? std::string() : *best;
}

std::string file_name_part(std::string_view name) {
    std::string out;
    for (const char c : folded(name)) {
        const bool kept = (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9');
        if (kept)
            out += c;
        else if (!out.empty() && out.back() != '-')
            out += '-';
    }
    while (!out.empty() && out.back() == '-') out.pop_back();
    return out.empty() ? "unnamed" : out;
}

}  // namespace selvage::base
