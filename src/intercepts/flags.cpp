#include "intercepts/intercept.h"

#include <algorithm>
#include <cassert>
#include <string_view>

namespace selvage::intercepts {

const std::vector<Flag>& flags() {
    static const std::vector<Flag> all = {
        {"likely", "certainty 2: the pick is likely, not sure"},
        {"possible", "certainty 3: the pick is possible; it is drawn, not modelled"},
        {"over-limit", "a sample is over its laboratory's limit and was taken at the limit: the grade is a least one"},
        {"below-detection", "every sample of the first analyte is below detection"},
        {"part-sampled", "less than the whole pick was assayed for the first analyte"},
        {"unsampled-as-zero", "under 0.8 of the pick was assayed, and what nobody sampled counts as zero grade"},
        {"lost-core", "over a tenth of the pick's core was lost, or the pick itself is lost core"},
        {"low-recovery", "under half of the pick's core was recovered: its grade is not used in the model"},
        {"alpha-only", "true thickness by the angle to the core axis alone: no oriented contact, no model"},
        {"low-angle", "the hole meets the vein at under 30 degrees: true thickness is poorly known"},
        {"doubtful", "further from where all the other intercepts put it than one in a hundred would be"},
    };
    return all;
}

void set_flag(Intercept& intercept, const char* word, bool wanted) {
    const auto rank = [](std::string_view flag) {
        const auto& all = flags();
        return std::find_if(all.begin(), all.end(), [&](const Flag& f) { return flag == f.word; }) - all.begin();
    };
    assert(rank(word) < static_cast<std::ptrdiff_t>(flags().size()));
    std::vector<std::string>& have = intercept.flags;
    have.erase(std::remove(have.begin(), have.end(), word), have.end());
    if (!wanted) return;
    const auto place = std::find_if(have.begin(), have.end(), [&](const std::string& flag) { return rank(flag) > rank(word); });
    have.insert(place, word);
}

}  // namespace selvage::intercepts
