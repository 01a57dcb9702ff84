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

std::string state_meaning(tables::PickState state) {
    switch (state) {
        case tables::PickState::structure:
            return "the vein's place without vein material: its depth is used, but for chances it counts as no vein";
        case tables::PickState::open_void: return "a void in the vein's place: a hit, without thickness and grade";
        case tables::PickState::lost: return "the core of the vein's place is lost: a hit, without thickness and grade";
        case tables::PickState::faulted: return "a fault cuts the vein out: neither a hit nor a miss";
        case tables::PickState::absent: return "looked for and not there: a miss";
        case tables::PickState::vein: break;
    }
    return {};
}

bool may_pass_by(const forecast::Pierce& pierce) {
    return std::find(pierce.flags.begin(), pierce.flags.end(), "nearest-vein") != pierce.flags.end();
}

}  // namespace selvage::sheets
