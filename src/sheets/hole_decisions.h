#pragma once

#include "sheets/card_facts.h"
#include "sheets/running_text.h"
#include "sheets/vein_ahead.h"

#include <optional>
#include <string>
#include <vector>

// What has to be decided of each planned and active hole: one line a hole.
namespace selvage::sheets {

// Drilling on past a hole's planned end to a vein's stop depth, and what that buys.
struct Lengthening {
    const VeinAhead* ahead = nullptr;
    double metres = 0.0, to = 0.0;  // m, whole units of the project
    double gain = 0.0;              // of the chance to meet the vein
};
// Those that gain 0.05 or more, the shorter first.
std::vector<Lengthening> lengthenings(const std::vector<VeinAhead>& of_hole, const Results& results);

// Active holes first. Of an active hole: what is due at the rig, that it runs off its target or too near to another hole, that it
// should go deeper. Of a planned hole: that it keeps no clearance and has to move, else how many metres for which vein (its
// target's first), and what more metres would buy.
std::vector<Paragraph> hole_decisions(const Results& results);

}  // namespace selvage::sheets
