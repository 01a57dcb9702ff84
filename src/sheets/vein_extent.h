#pragma once

#include "sheets/plane_layout.h"
#include "veins/vein.h"

#include <Eigen/Core>

#include <vector>

namespace selvage::sheets {

// The edge of the ground within which a vein is modelled, laid on its mean plane: the pieces of all its parts, in any order.
struct VeinExtent {
    struct Piece {
        Eigen::Vector2d a, b;
    };
    std::vector<Piece> pieces;

    VeinExtent(const std::vector<veins::EdgeLine>& edges, const PlaneLayout& layout);
};

}  // namespace selvage::sheets
