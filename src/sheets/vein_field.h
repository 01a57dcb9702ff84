#pragma once

#include "sheets/plane_layout.h"
#include "sheets/vein_extent.h"
#include "veins/vein.h"

#include <Eigen/Core>

#include <cstddef>
#include <functional>
#include <optional>
#include <vector>

// The map of a quantity over a vein's mean plane, and how far it may be trusted: what isolines and tints are cut from.
namespace selvage::sheets {

// How near is near. All in metres on the plane.
struct FieldReach {
    double near_hits = 25.0;  // half the hole spacing: solid within this of the straight line between two linked hits
    double linked = 100.0;    // hits no further apart than this are linked: the extrapolation distance
    double of_a_hit = 100.0;  // nothing is drawn further than this from a hit: the extrapolation distance
};

// A grid of values over the plane, row by row from the lower left corner.
struct VeinField {
    Eigen::Vector2d corner = Eigen::Vector2d::Zero();  // m, layout
    double step = 1.0;                                 // m
    std::size_t across = 0, up = 0;                    // nodes
    std::vector<double> log_value;                     // NaN where nothing is known
    std::vector<double> solid;                         // m, positive where tints and solid lines may stand
    std::vector<double> drawn;                         // m, positive where anything may be drawn; at least `solid`

    Eigen::Vector2d place(std::size_t column, std::size_t row) const {
        return corner + step * Eigen::Vector2d(static_cast<double>(column), static_cast<double>(row));
    }
    std::size_t index(std::size_t column, std::size_t row) const { return row * across + column; }
};

// What is mapped: the logarithm of its median at a point of the vein, given that the vein is there; nothing where not known.
using MappedQuantity = std::function<std::optional<double>(const veins::Content&)>;
// Median of true thickness, m; and of grade x true thickness, analyte's unit x m, of one of the modelled analytes (the two are
// modelled as independent, so the medians of the logarithms add).
MappedQuantity median_thickness();
MappedQuantity median_accumulation(std::size_t modelled_analyte);

// The quantity as the model gives it at the nodes of a coarse grid that lie within reach of a hit, and three steps more for the
// smoothing. Asking the model is the dear part: it is done once, on whatever paper the vein is then drawn.
struct CoarseField {
    VeinField grid;
};
using AskContents = std::function<std::vector<veins::Content>(const std::vector<Eigen::Vector3d>&)>;
// What a vein holds in one of its blocks, asked past the faults that bound it too.
AskContents contents_in_block(const veins::Vein& vein, std::size_t block);
CoarseField sample_vein(const AskContents& contents_at, const PlaneLayout& layout, const std::vector<Eigen::Vector2d>& hits,
                        const FieldReach& reach, const MappedQuantity& quantity);

// What was sampled, laid smoothly over a fine grid of this step over a window (lower left and upper right in layout). hits:
// places of the hits that carry the quantity, on the layout.
VeinField fine_field(const CoarseField& sampled, const VeinExtent& extent, const std::vector<Eigen::Vector2d>& hits,
                     const FieldReach& reach, const Eigen::Vector2d& lower_left, const Eigen::Vector2d& upper_right,
                     double fine_step);

// Levels the field where a part of it on one side of a level, closed or open, holds fewer than two hits: such a hill or hollow is
// cut off at the level, so that no line and no tint rests on a single hit or on none. levels rising, logarithms.
void level_lone_parts(VeinField& field, const std::vector<double>& log_levels, const std::vector<Eigen::Vector2d>& hits);

}  // namespace selvage::sheets
