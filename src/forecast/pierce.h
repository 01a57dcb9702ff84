#pragma once

#include "base/angle.h"
#include "base/finding.h"
#include "intercepts/intercept.h"
#include "numerics/normal_mixture.h"
#include "paths/path.h"
#include "settings/project.h"
#include "tables/records.h"
#include "veins/vein.h"

#include <Eigen/Core>

#include <string>
#include <vector>

namespace selvage::forecast {

// Where a planned or active hole will pierce a vein, and what it should find. One row of pierce_points.csv.
struct Pierce {
    std::string hole, vein;
    std::size_t vein_number = 0;                           // in the vector of veins
    veins::Crossing crossing;                              // the curve, kept whole
    double depth = 0.0, depth_p10 = 0.0, depth_p90 = 0.0;  // m
    double depth_sd() const { return (depth_p90 - depth_p10) / 2.563; }
    Eigen::Vector3d point = Eigen::Vector3d::Zero();       // of the path at `depth`
    Eigen::Matrix3d covariance = Eigen::Matrix3d::Zero();  // of the pierce point on the vein, m2
    base::Angle angle;                                     // acute, between hole and vein
    numerics::NormalMixture log_thickness;                 // given that the vein is there; empty: not known
    std::vector<numerics::NormalMixture> log_grades;       // one for each modelled analyte
    double presence = 0.0;
    double call_depth = 0.0, stop_depth = 0.0;  // m
    double chance_reached = 0.0;
    veins::ErrorBudget budget;       // of the depth
    std::vector<std::string> flags;  // words of a closed list: "nearest-vein", "prior-only", "along-vein", "beyond-extent"
};

// A planned or active hole whose path, run on, comes to no vein, and the vein that it passes nearest.
struct NoCrossing {
    std::string hole, vein;
    std::size_t vein_number = 0;
};

struct Forecast {
    std::vector<Pierce> pierces;
    std::vector<NoCrossing> no_crossings;
};

// Every planned and active hole against each vein, in collar order, then depth. A row for each vein whose extent the path meets
// or passes within two sds of; at the least, the nearest vein. No row for a vein that an active hole has already met.
base::Checked<Forecast> forecast_pierces(const std::vector<paths::Path>& paths, const std::vector<veins::Vein>& veins,
                                         const intercepts::Intercepts& intercepts, const settings::Plan& plan);

const std::vector<const base::Check*>& checks();

}  // namespace selvage::forecast
