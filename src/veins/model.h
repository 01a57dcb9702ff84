#pragma once

#include "veins/chart.h"
#include "veins/drawing_lattice.h"
#include "veins/extent.h"
#include "veins/log_field.h"
#include "veins/mean_lattice.h"
#include "veins/presence_lattice.h"
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
    std::shared_ptr<const DrawingLattice> drawing;
    std::vector<Eigen::Vector2d> met;  // every place with a height, whether the vein has fill there or not: ground for judging
    Extent extent;
    Walls walls;
    std::shared_ptr<const LogField> thickness;            // along w; null: no intercept tells it
    std::vector<std::shared_ptr<const LogField>> grades;  // one for each modelled analyte; null: none known
    std::shared_ptr<const Presence> presence;
    std::shared_ptr<const PresenceLattice> window;  // its chances, for what is drawn
    std::vector<EdgeLine> edges;
    std::vector<FitRow> fit;
    std::vector<NoVein> no_vein;
    VeinSummary summary;
};

// The drawn vein at a place.
DrawnVein drawn_at(const Vein::Model& model, const Eigen::Vector2d& place);

// Upward unit normal in the world of a surface with this slope on the chart.
Eigen::Vector3d world_normal(const Chart& chart, const Eigen::Vector2d& gradient);

// Sd of the mid-surface's direction each way, from the sds of its slopes.
base::Angle direction_sd(const Eigen::Vector2d& gradient, const Eigen::Vector2d& gradient_sd);

}  // namespace selvage::veins
