#pragma once

#include "veins/surface.h"

#include <Eigen/Core>

#include <map>
#include <vector>

// What the error of a surface over a path is made of. Private to this room.
namespace selvage::veins {

// Variances of the height over the path, m2; together they are that of the mixture.
struct SurfaceBudget {
    double shape = 0.0;                         // undulation between the data
    double picks = 0.0;                         // of the contacts' own depths
    double core = 0.0;                          // of core angles, and waves too small for the surface
    double deviation = 0.0;                     // where the hole will run
    double settings = 0.0;                      // of what is not known of range, slope and noise
    std::map<paths::SourceId, double> sources;  // path errors of the data and of the hole itself
    double total() const;
};

// Weighted over the nodes; needs a model with shared sources. (The forecast is linear in independent errors, so that its variance
// falls apart without remainder.)
SurfaceBudget budget_over_path(const SurfaceModel& model, const PathPoint& point);

// What a further measurement would leave of the variance: the same nodes and weights.
//   remeasured  sources with the sds that they would have then
//   oriented    places (u, v) at one of which a slope would be measured on core: a variance for each
double variance_with(const SurfaceModel& model, const PathPoint& point, const std::map<paths::SourceId, double>& remeasured);
std::vector<double> variances_with_core_at(const SurfaceModel& model, const PathPoint& point,
                                           const std::vector<Eigen::Vector2d>& oriented);

}  // namespace selvage::veins
