#pragma once

#include "faults/blocks.h"
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
#include <utility>
#include <vector>

// What a vein's answers are made from. Private to this room.
namespace selvage::veins {

// The vein within one block of the faults that cut it.
struct BlockPart {
    Chart chart;                             // of points today: a place of the vein has the same (u, v) as before the faults
    std::vector<paths::SourceEffect> slips;  // what errors of the slips do to a point's place before the faults
    Eigen::Vector3d mean_slip = Eigen::Vector3d::Zero();  // by which data of both sides correct that, m, in chart axes
    std::shared_ptr<const BandLattice> band;
    std::vector<Eigen::Vector2d> met;  // every place in it with a height, whether the vein has fill there or not
    Extent extent;
};

class ParentWall;

struct Vein::Model {
    Chart chart;  // of the vein as it was before the faults
    faults::Blocks blocks;
    std::vector<BlockPart> parts;  // one for each block
    base::Plane plane;             // today's, amid the hits
    double step_out = 100.0;       // the extrapolation distance, m
    double spacing = 50.0;         // between holes, m
    std::shared_ptr<const SurfaceModel> surface;
    std::shared_ptr<const MeanLattice> lattice;
    double lattice_reach = 0.0;  // m, of the lattice from where the vein was met
    std::shared_ptr<const ThicknessLattice> drawn_thickness;
    std::vector<Eigen::Vector2d> met;  // of all parts
    Walls walls;
    std::vector<std::pair<std::size_t, WallContacts>> contacts;  // through which they pass, each with its block
    std::shared_ptr<const LogField> thickness;                   // along w; null: no intercept tells it
    std::vector<std::shared_ptr<const LogField>> grades;         // one for each modelled analyte; null: none known
    std::shared_ptr<const Presence> presence;
    std::shared_ptr<const PresenceLattice> window;  // its chances, for what is drawn
    std::shared_ptr<const ParentWall> parent_wall;  // of a splay; null: it is none
    std::vector<EdgeLine> edges;
    std::vector<FitRow> fit;
    std::vector<NoVein> no_vein;
    std::vector<SlipEstimate> slips;
    VeinSummary summary;
};

// Effects on a point of a path in one part: the path's own and the slips', in chart axes.
std::vector<ChartEffect> effects_in(const Vein::Model& model, std::size_t block, const paths::Path& path, double depth);

// The part to which a point of today belongs: of those whose mid-surface over the point lies within their block, the one whose
// surface is nearest; where there is none (in a gap between two blocks), that of the block in which the point itself lies.
struct Located {
    std::size_t block = 0;
    Eigen::Vector3d chart_point = Eigen::Vector3d::Zero();
    bool on_vein = true;  // false in a gap
};
Located located(const Vein::Model& model, const Eigen::Vector3d& point);

// The mean surface as one block has it: higher or lower by what the data say of the slips.
inline MeanSurface moved_by(const Eigen::Vector3d& mean_slip, MeanSurface mean) {
    mean.height += slope_row_of(mean.gradient).dot(mean_slip);
    return mean;
}
MeanSurface mean_in(const Vein::Model& model, const BlockPart& part, const Eigen::Vector2d& place);

// The drawn vein of a block at a place.
DrawnVein drawn_at(const Vein::Model& model, const BlockPart& part, const Eigen::Vector2d& place);

// Upward unit normal in the world of a surface with this slope on the chart.
Eigen::Vector3d world_normal(const Chart& chart, const Eigen::Vector2d& gradient);

// Sd of the mid-surface's direction each way, from the sds of its slopes.
base::Angle direction_sd(const Eigen::Vector2d& gradient, const Eigen::Vector2d& gradient_sd);

}  // namespace selvage::veins
