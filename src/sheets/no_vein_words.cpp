#include "sheets/no_vein_words.h"

#include "sheets/label_text.h"

namespace selvage::sheets {

std::string no_vein_words(const veins::NoVein& none, const base::MapFrame& frame, const drawing::ContentLook& content) {
    if (content.forecasts) return no_vein_label(none, frame);
    const std::string at = " at " + length_text(none.depth, frame, 0);
    switch (none.reason) {
        case veins::NoVeinReason::absent:
        case veins::NoVeinReason::not_logged:
        case veins::NoVeinReason::fault_gap: return "no vein logged" + at;
        case veins::NoVeinReason::lost_core: return "core lost" + at;
        case veins::NoVeinReason::stopped_short: return "stopped short of it";
        case veins::NoVeinReason::not_judged: break;
    }
    return "not judged" + at;
}

}  // namespace selvage::sheets
