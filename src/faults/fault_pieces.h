#pragma once

#include "base/plane.h"
#include "faults/fault.h"

#include <Eigen/Core>
#include <Eigen/Geometry>

#include <vector>

namespace selvage::faults {

// A fault as it lies today, in one of the pieces into which younger ones cut it: a plane that ends at theirs.
struct FaultPiece {
    base::Plane plane;
    std::vector<base::Plane> bounds;       // the piece lies on the side that their normals point away from
    std::vector<Eigen::Vector3d> corners;  // of the piece within 50 km of the fault's point: convex, in order
    Shift moved;
};

// Whether a point of the piece's plane belongs to the piece.
bool holds(const FaultPiece& piece, const Eigen::Vector3d& point);

// The part of a piece within a box, as a convex polygon; fewer than three corners where none is.
std::vector<Eigen::Vector3d> corners_within(const FaultPiece& piece, const Eigen::AlignedBox3d& box);

// The pieces of a fault among those that the order of events makes younger: cut and moved by one after the other, the oldest of
// them first.
std::vector<FaultPiece> pieces_of(const Events& events, const Fault& fault);

}  // namespace selvage::faults
