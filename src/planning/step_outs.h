#pragma once

#include "forecast/pierce.h"
#include "intercepts/intercept.h"
#include "planning/reach.h"
#include "settings/project.h"
#include "site/site.h"
#include "tables/records.h"
#include "veins/vein.h"

#include <Eigen/Core>

#include <optional>
#include <string>
#include <vector>

// Where the next holes should pierce the veins: what they are worth, and what they would teach.
namespace selvage::planning {

// One row of step_outs.csv.
struct StepOut {
    std::size_t rank = 0;  // 1 is the first
    std::string vein;
    std::size_t vein_number = 0;
    Eigen::Vector3d point = Eigen::Vector3d::Zero();  // on the mid-surface
    double presence = 0.0;
    std::optional<double> true_thickness;  // m, median given that the vein is there
    std::optional<double> accumulation;    // presence x expected grade x thickness, limited at the vein's largest; unit x m
    double information = 0.0;              // m2, fall of the mean variance over the extrapolation ground, after the earlier ranks
    // By which it was chosen: what it teaches and what it is worth as shares of the best place left at its rank, its cost as a
    // share of the dearest, and their sum with the plan's weights.
    double teaches = 0.0, worth = 0.0, costs = 0.0, score = 0.0;
    double off_variance = 0.0;  // of what is left of its own vein's variance over the extrapolation ground: a share
    Reach hole;
    std::string no_pad;  // why none serves, in words; empty where one does, or there is none
    std::string target;  // the same from week to week where the place is
    std::string reason;  // in words
};

struct StepOutSettings {
    settings::Plan plan;
    settings::Rig rig;
    settings::SurveyErrorSizes survey_errors;
    double collar_sd = 0.3;              // m
    std::optional<std::size_t> analyte;  // of Records::analytes, whose accumulation counts; nothing: thickness does
};

// Greedy, each rank as though the planned and active holes and the earlier ranks were drilled. Candidates: the modelled ground
// out to the extrapolation distance, half a hole spacing or more from every hit, forecast pierce and earlier rank, where a
// straight hole reaches it, clear of those of `paths` and of old workings, from the ground or a pad and
// within the property. The score is information and value, each as a share of the best there is
// at that rank, less the cost as a share of the dearest, with the plan's weights.
std::vector<StepOut> step_outs(const std::vector<veins::Vein>& veins, const intercepts::Intercepts& intercepts,
                               const std::vector<forecast::Pierce>& pierces, const std::vector<paths::Path>& paths,
                               const tables::Records& records, const site::Site& site, const StepOutSettings& settings);

}  // namespace selvage::planning
