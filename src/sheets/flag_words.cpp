#include "sheets/flag_words.h"

#include <algorithm>
#include <array>
#include <utility>

namespace selvage::sheets {

std::string flag_words(const std::string& flag) {
    constexpr std::array<std::pair<const char*, const char*>, 8> said{{
        {"beyond-extent", "outside the modelled ground"},
        {"nearest-vein", "may pass it by"},
        {"along-vein", "runs along the vein"},
        {"prior-only", "too few hits for a shape of its own"},
        {"lost-core", "core lost"},
        {"low-recovery", "little core"},
        {"alpha-only", "by core axis angle alone"},
        {"unsampled-as-zero", "unsampled counts as zero"},
    }};
    for (const auto& [word, words] : said)
        if (flag == word) return words;
    std::string words = flag;
    std::replace(words.begin(), words.end(), '-', ' ');
    return words;
}

}  // namespace selvage::sheets
