#pragma once

#include "sheets/compose.h"

#include <Eigen/Core>

#include <optional>
#include <string>
#include <vector>

// How far off its target a planned or active hole will come, told alike on every sheet.
namespace selvage::sheets {

// Of a hole with a target point and a forecast of the target's vein: where it pierces that if it is left alone.
struct OffTarget {
    const tables::Target* target = nullptr;
    const forecast::Pierce* pierce = nullptr;
    bool active = false;
    double metres = 0.0, sd = 0.0;                    // m along the vein
    double off_model = 0.0;                           // m that the target itself lies off the modelled vein
    Eigen::Vector3d aside = Eigen::Vector3d::Zero();  // from the target to the pierce, along the vein
    bool outside = false;                             // of the target's tolerance, where it has one
};
std::optional<OffTarget> off_target(const tables::Collar& collar, const Results& results);

// Those that drawings show: of active holes, and of planned ones that come outside their tolerance. In collar order.
std::vector<OffTarget> targets_to_show(const Results& results);

// "18 m off its target along Sorrel, 10 m allowed"; with a decimal where the two would read alike.
std::string off_target_words(const OffTarget& off, const base::MapFrame& map);

}  // namespace selvage::sheets
