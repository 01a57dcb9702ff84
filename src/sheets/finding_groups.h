#pragma once

#include "base/finding.h"

#include <string>
#include <vector>

namespace selvage::sheets {

// The findings of one check, in the order in which they were found.
struct FindingGroup {
    const base::Check* check = nullptr;
    std::vector<const base::Finding*> findings;
};

// Errors first, then warnings, then notes; of one severity the check that comes most often first.
std::vector<FindingGroup> finding_groups(const std::vector<base::Finding>& findings);

// "9 errors" of one check: "hole-left-out, 9 times", "collar-twice, once".
std::string times_words(const FindingGroup& group);
// "2 errors", "1 warning", "no notes".
std::string count_words(std::size_t count, const std::string& one);

}  // namespace selvage::sheets
