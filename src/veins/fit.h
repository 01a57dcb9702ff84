#pragma once

#include "veins/model.h"
#include "veins/vein_data.h"

#include <cstddef>
#include <optional>
#include <vector>

namespace selvage::veins {

// One intercept among the data of the models.
struct FitDatum {
    const Evidence* evidence = nullptr;
    std::size_t height = 0;                // its number among the surface's data
    std::optional<std::size_t> thickness;  // its number among the thickness's data
    std::optional<double> log_thickness;   // along w
    double window = 1.0;                   // chance that the vein's window is open there, from all the others
};

// Each intercept foretold by all the others: the height of its mid-point turned into a depth along its hole by the hole's angle
// to the surface, the pick's own error included.
std::vector<FitRow> fit_rows(const Vein::Model& model, const std::vector<FitDatum>& data);

}  // namespace selvage::veins
