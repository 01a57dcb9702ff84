#pragma once

#include "sheets/plane_layout.h"
#include "veins/vein.h"

#include <Eigen/Core>

#include <vector>

namespace selvage::sheets {

// The ground within which a vein is modelled, laid on its mean plane: the edge pieces of all its parts taken together, in any
// order.
class VeinExtent {
public:
    VeinExtent(const std::vector<veins::EdgeLine>& edges, const PlaneLayout& layout);

    bool empty() const { return ends_.empty(); }
    // Distance to the nearest edge, m, positive within the extent. Without edges: negative everywhere.
    double inside_by(const Eigen::Vector2d& place) const;

private:
    struct Piece {
        Eigen::Vector2d a, b;
    };
    std::vector<Piece> ends_;
};

// Distance of a place from the straight line between two points, m.
double distance_to_piece(const Eigen::Vector2d& place, const Eigen::Vector2d& a, const Eigen::Vector2d& b);

}  // namespace selvage::sheets
