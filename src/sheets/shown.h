#pragma once

#include "sheets/compose.h"

#include <vector>

namespace selvage::sheets {

// What a style lets a pack show: the results, without what it leaves out. Holds what differs and refers to the rest, so the
// results must outlive it.
class Shown {
public:
    Shown(const Results& all, const drawing::ContentLook& content);

    const Results& results() const { return results_; }

private:
    tables::Records records_;
    std::vector<paths::Path> paths_;
    std::vector<forecast::Pierce> pierces_;
    std::vector<planning::StepOut> step_outs_;
    Results results_;
};

}  // namespace selvage::sheets
