#include "drawing/text_width.h"

#include <algorithm>
#include <cstdint>

namespace selvage::drawing {

namespace {

constexpr std::uint32_t not_drawable = 0xffffffffU;

// The code point that starts at text[at], which is moved past it; `not_drawable`, and one byte on, where the bytes are not UTF-8.
std::uint32_t next_code(std::string_view text, std::size_t& at) {
    const auto byte = [&](std::size_t i) { return static_cast<std::uint32_t>(static_cast<unsigned char>(text[i])); };
    const std::uint32_t lead = byte(at);
    const std::size_t length = lead < 0x80U ? 1 : lead >= 0xf0U ? 4 : lead >= 0xe0U ? 3 : lead >= 0xc2U ? 2 : 0;
    if (length == 1) return byte(at++);
    if (length == 0 || lead > 0xf4U || at + length > text.size()) {
        ++at;
        return not_drawable;
    }
    std::uint32_t code = lead & (0xffU >> (length + 1));
    for (std::size_t i = 1; i < length; ++i) {
        if ((byte(at + i) & 0xc0U) != 0x80U) {
            ++at;
            return not_drawable;
        }
        code = (code << 6U) | (byte(at + i) & 0x3fU);
    }
    at += length;
    return code;
}

// The plain form of blanks and hyphens that many faces lack; the code itself for all others.
std::uint32_t plain_form(std::uint32_t code) {
    if (code < 0x20U || code == 0x7fU || code == 0xa0U || (code >= 0x2000U && code <= 0x200aU) || code == 0x202fU) return ' ';
    if (code == 0x2010U || code == 0x2011U) return '-';
    return code;
}

int advance_of(const std::vector<int>& advances, std::uint32_t code) { return code < advances.size() ? advances[code] : 0; }

// The code that is drawn in the place of `code`, and how far it moves on (thousandths of the size).
struct Drawn {
    std::uint32_t code;
    int advance;
};

Drawn drawn_for(const std::vector<int>& advances, std::uint32_t code) {
    const std::uint32_t plain = plain_form(code);
    const int advance = advance_of(advances, plain);
    if (advance > 0) return {plain, advance};
    return {'?', advance_of(advances, '?')};
}

const std::vector<int>& advances_of(const FontMetrics& fonts, FontFace face) {
    return fonts.advances[static_cast<std::size_t>(face)];
}

}  // namespace

std::string drawable(const FontMetrics& fonts, FontFace face, std::string_view utf8) {
    std::string out;
    out.reserve(utf8.size());
    for (std::size_t at = 0; at < utf8.size();) {
        const std::size_t start = at;
        const std::uint32_t code = next_code(utf8, at);
        const Drawn drawn = drawn_for(advances_of(fonts, face), code);
        if (drawn.code == code)
            out += utf8.substr(start, at - start);
        else
            out += static_cast<char>(drawn.code);
    }
    return out;
}

std::vector<unsigned> missing_letters(const FontMetrics& fonts, FontFace face, std::string_view utf8) {
    std::vector<unsigned> missing;
    for (std::size_t at = 0; at < utf8.size();) {
        const std::uint32_t code = next_code(utf8, at);
        if (code != '?' && code != not_drawable && drawn_for(advances_of(fonts, face), code).code == '?') missing.push_back(code);
    }
    return missing;
}

double text_width_mm(const FontMetrics& fonts, const TextLook& look, std::string_view utf8) {
    long thousandths = 0;
    for (std::size_t at = 0; at < utf8.size();)
        thousandths += drawn_for(advances_of(fonts, look.face), next_code(utf8, at)).advance;
    return static_cast<double>(thousandths) / 1000.0 * look.size_pt * mm_per_point;
}

double cap_height_mm(const FontMetrics& fonts, const TextLook& look) { return fonts.cap_height * look.size_pt * mm_per_point; }

namespace {

// The pieces of a word of which each fits, as few as there can be; broken after a hyphen where one stands in the second half of
// what fits, else anywhere. One letter at the least.
std::vector<std::string> fitting_pieces(const FontMetrics& fonts, const TextLook& look, std::string_view word, double width_mm) {
    std::vector<std::string> pieces;
    while (text_width_mm(fonts, look, word) > width_mm) {
        std::size_t end = 0, after_hyphen = 0;
        for (std::size_t at = 0; at < word.size();) {
            next_code(word, at);
            if (end > 0 && text_width_mm(fonts, look, word.substr(0, at)) > width_mm) break;
            end = at;
            if (word[at - 1] == '-') after_hyphen = at;
        }
        if (2 * after_hyphen > end) end = after_hyphen;
        if (end >= word.size()) break;
        pieces.emplace_back(word.substr(0, end));
        word.remove_prefix(end);
    }
    pieces.emplace_back(word);
    return pieces;
}

}  // namespace

std::vector<std::string> wrapped(const FontMetrics& fonts, const TextLook& look, std::string_view utf8, double width_mm) {
    std::vector<std::string> lines;
    std::string line;
    const auto end_line = [&] {
        if (!line.empty()) lines.push_back(line);
        line.clear();
    };
    for (std::size_t at = 0; at < utf8.size();) {
        const std::size_t start = utf8.find_first_not_of(" \n", at);
        if (start == std::string_view::npos) break;
        const std::size_t end = std::min(utf8.find_first_of(" \n", start), utf8.size());
        const std::string word(utf8.substr(start, end - start));
        const bool broken_by_hand = utf8.substr(at, start - at).find('\n') != std::string_view::npos;
        at = end;
        if (broken_by_hand) end_line();
        std::string longer = line;
        longer.append(1, ' ').append(word);
        if (!line.empty() && text_width_mm(fonts, look, longer) <= width_mm) {
            line = std::move(longer);
            continue;
        }
        end_line();
        std::vector<std::string> pieces = fitting_pieces(fonts, look, word, width_mm);
        line = pieces.back();
        pieces.pop_back();
        lines.insert(lines.end(), pieces.begin(), pieces.end());
    }
    end_line();
    return lines;
}

std::string shortened(const FontMetrics& fonts, const TextLook& look, std::string_view utf8, double width_mm) {
    if (text_width_mm(fonts, look, utf8) <= width_mm) return std::string(utf8);
    constexpr const char* ellipsis = "\xe2\x80\xa6";
    std::string best = ellipsis;
    for (std::size_t at = 0; at < utf8.size();) {
        next_code(utf8, at);
        std::string kept(utf8.substr(0, at));
        if (text_width_mm(fonts, look, kept + ellipsis) > width_mm) break;
        while (!kept.empty() && kept.back() == ' ') kept.pop_back();
        best = kept + ellipsis;
    }
    return best;
}

}  // namespace selvage::drawing
