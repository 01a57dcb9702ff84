#pragma once

#include "veins/chart.h"
#include "veins/extent.h"
#include "veins/log_field.h"
#include "veins/mean_lattice.h"
#include "veins/surface.h"
#include "veins/vein.h"
#include "veins/walls.h"

#include <Eigen/Core>

#include <memory>
#include <vector>

// What a vein's answers are made from. Private to this room.
namespace selvage::veins {

struct Vein::Model {
    Chart chart;
    base::Plane plane;
    double spacing = 50.0;  // between holes, m
    std::shared_ptr<const SurfaceModel> surface;
    std::shared_ptr<const MeanLattice> lattice;
    std::vector<Eigen::Vector2d> met;  // every place with a height, whether the vein has fill there or not: ground for judging
    Extent extent;
    Walls walls;
    std::shared_ptr<const LogField> thickness;            // along w; null: no intercept tells it
    std::vector<std::shared_ptr<const LogField>> grades;  // one for each modelled analyte; null: none known
    double presence = 0.75;                               // of the vein as a whole
    std::vector<EdgeLine> edges;
    std::vector<FitRow> fit;
    std::vector<NoVein> no_vein;
    VeinSummary summary;
};

// Log of the thickness along w where no intercept tells it, m: the prior's centre.
double usual_log_thickness();

// The drawn vein at a place.
DrawnVein drawn_at(const Vein::Model& model, const Eigen::Vector2d& place);

// Chance that the vein is there and thicker than a trace, at a place where the mid-surface has this slope.
double presence_at(const Vein::Model& model, const Eigen::Vector2d& place, const Eigen::Vector2d& gradient);

// Sd of the mid-surface's direction each way, from the sds of its slopes.
base::Angle direction_sd(const Eigen::Vector2d& gradient, const Eigen::Vector2d& gradient_sd);

}  // namespace selvage::veins
