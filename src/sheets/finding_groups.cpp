#include "sheets/finding_groups.h"

#include <algorithm>

namespace selvage::sheets {

std::vector<FindingGroup> finding_groups(const std::vector<base::Finding>& findings) {
    std::vector<FindingGroup> groups;
    for (const base::Finding& finding : findings) {
        auto group =
            std::find_if(groups.begin(), groups.end(), [&](const FindingGroup& one) { return one.check == finding.check; });
        if (group == groups.end()) group = groups.insert(groups.end(), {finding.check, {}});
        group->findings.push_back(&finding);
    }
    std::stable_sort(groups.begin(), groups.end(), [](const FindingGroup& a, const FindingGroup& b) {
        if (a.check->severity != b.check->severity) return a.check->severity < b.check->severity;
        return a.findings.size() > b.findings.size();
    });
    return groups;
}

std::string times_words(const FindingGroup& group) {
    const std::size_t count = group.findings.size();
    return std::string(group.check->id) + ", " + (count == 1 ? "once" : count == 2 ? "twice" : std::to_string(count) + " times");
}

std::string count_words(std::size_t count, const std::string& one) {
    return (count == 0 ? "no" : std::to_string(count)) + " " + one + (count == 1 ? "" : "s");
}

}  // namespace selvage::sheets
