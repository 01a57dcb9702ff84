#pragma once

#include "veins/drawing_lattice.h"
#include "veins/log_field.h"

// What the model takes for known of thickness and grade beforehand, as it models a vein.
namespace selvage::studies {

constexpr double spacing = 50.0;  // m, of the holes of made_up_content.h

inline veins::LogFieldPrior thickness_prior() {
    veins::LogFieldPrior prior;
    prior.mean = veins::usual_log_thickness();
    return prior;
}

inline veins::LogFieldPrior grade_prior(double mean) {
    veins::LogFieldPrior prior;
    prior.mean = mean;
    prior.sd = prior.nugget_sd = {0.3, 0.7, 1.4};
    prior.log_weight = {0.0, 0.0, 0.0};
    return prior;
}

}  // namespace selvage::studies
