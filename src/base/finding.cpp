#include "base/finding.h"

#include <fmt/format.h>

#include <iterator>
#include <utility>

namespace selvage::base {

const char* word_of(Severity severity) {
    switch (severity) {
        case Severity::error: return "error";
        case Severity::warning: return "warning";
        default: return "note";
    }
}

std::string line_of(const Finding& finding) {
    const std::string place =
        finding.origin.row == 0 ? finding.origin.source : fmt::format("{}:{}", finding.origin.source, finding.origin.row);
    const std::string hole = finding.hole.empty() ? std::string() : fmt::format("hole {}: ", finding.hole);
    return fmt::format("{}{}{}: {}{}", place, place.empty() ? "" : ": ", word_of(finding.check->severity), hole, finding.message);
}

void append(std::vector<Finding>& all, std::vector<Finding> more) {
    all.insert(all.end(), std::make_move_iterator(more.begin()), std::make_move_iterator(more.end()));
}

}  // namespace selvage::base
