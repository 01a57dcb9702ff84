#include "drawing/shortened_name.h"

#include <cstddef>
#include <vector>

namespace selvage::drawing {

std::string shortened_name(const FontMetrics& fonts, const TextLook& look, std::string_view utf8, double width_mm) {
    if (text_width_mm(fonts, look, utf8) <= width_mm) return std::string(utf8);
    constexpr const char* ellipsis = "\xe2\x80\xa6";
    std::vector<std::size_t> starts;  // of the letters
    for (std::size_t at = 0; at < utf8.size(); ++at)
        if ((static_cast<unsigned char>(utf8[at]) & 0xc0U) != 0x80U) starts.push_back(at);
    starts.push_back(utf8.size());
    const std::size_t letters = starts.size() - 1;
    for (std::size_t kept = letters - 1; kept > 0; --kept) {
        const std::size_t end = (kept + 2) / 3, start = kept - end;
        std::string text =
            std::string(utf8.substr(0, starts[start])) + ellipsis + std::string(utf8.substr(starts[letters - end]));
        if (text_width_mm(fonts, look, text) <= width_mm) return text;
    }
    return ellipsis;
}

}  // namespace selvage::drawing
