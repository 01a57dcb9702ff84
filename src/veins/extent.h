#pragma once

#include "faults/blocks.h"
#include "site/ground.h"
#include "site/property.h"
#include "veins/chart.h"
#include "veins/vein.h"

#include <Eigen/Core>

#include <functional>
#include <memory>
#include <vector>

namespace selvage::veins {

// How far a vein is modelled: no further than the extrapolation distance from where it was met, half way to where it was not,
// where it is as likely there as not, below the ground, within the property, up to the faults that bound its block; a splay,
// up to the wall of the vein that it leaves. Places are
// (u, v) on `chart`.
struct Extent {
    std::vector<Eigen::Vector2d> hits;                                            // (u, v)
    std::vector<Eigen::Vector2d> misses;                                          // (u, v)
    double step_out = 100.0;                                                      // m
    Chart chart;                                                                  // of the block
    std::function<faults::Blocks::Inside(const Eigen::Vector3d&)> within_block;   // of points today; none: no fault bounds it
    std::function<faults::Blocks::Inside(const Eigen::Vector3d&)> before_parent;  // of a splay: of the vein that it leaves
    double overstep = 0.0;  // m past faults, that vein, ground and property: of a solid that is cut there afterwards
    site::Ground ground;
    std::shared_ptr<const site::Property> property;          // none: not asked
    std::function<double(const Eigen::Vector2d&)> height;    // w of the mid-surface, for ground and property
    std::function<double(const Eigen::Vector2d&)> presence;  // chance that the vein is there; none: not asked
};

struct Margin {
    double inside = 0.0;  // m within the extent on the vein, below 0 outside: a lower bound of the distance
    EdgeReason reason = EdgeReason::extrapolation_distance;  // what ends it first, in the direction where it ends soonest
};
Margin margin_at(const Extent& extent, const Eigen::Vector2d& place);

// Distance to the nearest of `places`, m; infinity where there is none.
double nearest_distance(const std::vector<Eigen::Vector2d>& places, const Eigen::Vector2d& place);

// The outline as closed loops with the inside on their left, and in pieces of one reason each, as places on the chart.
// `spacing`: hole spacing, m.
struct OutlinePiece {
    EdgeReason reason = EdgeReason::extrapolation_distance;
    std::vector<Eigen::Vector2d> places;
};
struct ExtentOutline {
    std::vector<OutlinePiece> pieces;
    double area = 0.0;  // m2 on the base plane
};
std::vector<std::vector<Eigen::Vector2d>> outline_loops(const Extent& extent, double spacing);
ExtentOutline outline_of(const Extent& extent, double spacing);

}  // namespace selvage::veins
