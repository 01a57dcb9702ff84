#include "faults/fault_pieces.h"

#include <Eigen/Geometry>

#include <algorithm>
#include <utility>

namespace selvage::faults {

namespace {

constexpr double reach = 50000.0;  // m from the fault's point

FaultPiece whole(const Fault& fault) {
    const Eigen::Vector3d a = reach * fault.plane.normal.unitOrthogonal(), b = fault.plane.normal.cross(a);
    const Eigen::Vector3d& point = fault.plane.point;
    FaultPiece piece;
    piece.plane = fault.plane;
    piece.corners = {point + a, point + b, point - a, point - b};
    return piece;
}

// The part of a piece on the side that a plane's normal points away from; without corners where there is none.
FaultPiece part_below(const FaultPiece& piece, const base::Plane& bound) {
    FaultPiece part = piece;
    part.corners = base::polygon_below(piece.corners, bound);
    if (part.corners.size() != piece.corners.size() || part.corners != piece.corners) part.bounds.push_back(bound);
    return part;
}

void move(FaultPiece& piece, const Fault& by) {
    piece.plane.point += by.slip;
    for (base::Plane& bound : piece.bounds) bound.point += by.slip;
    for (Eigen::Vector3d& corner : piece.corners) corner += by.slip;
    piece.moved.add(by);
}

}  // namespace

bool holds(const FaultPiece& piece, const Eigen::Vector3d& point) {
    return std::all_of(piece.bounds.begin(), piece.bounds.end(),
                       [&](const base::Plane& bound) { return base::signed_distance(bound, point) <= 0.0; });
}

std::vector<Eigen::Vector3d> corners_within(const FaultPiece& piece, const Eigen::AlignedBox3d& box) {
    std::vector<Eigen::Vector3d> corners = piece.corners;
    for (Eigen::Index axis = 0; axis < 3; ++axis) {
        corners = base::polygon_below(corners, {box.max(), Eigen::Vector3d::Unit(axis)});
        corners = base::polygon_below(corners, {box.min(), -Eigen::Vector3d::Unit(axis)});
    }
    return corners;
}

std::vector<FaultPiece> pieces_of(const Events& events, const Fault& fault) {
    std::vector<FaultPiece> pieces{whole(fault)};
    for (const Fault& younger : events.younger_than(fault.name)) {
        std::vector<FaultPiece> cut;
        for (const FaultPiece& piece : pieces) {
            FaultPiece foot = part_below(piece, younger.plane);
            FaultPiece hanging = part_below(piece, {younger.plane.point, -younger.plane.normal});
            move(hanging, younger);
            if (foot.corners.size() > 2) cut.push_back(std::move(foot));
            if (hanging.corners.size() > 2) cut.push_back(std::move(hanging));
        }
        pieces = std::move(cut);
    }
    return pieces;
}

}  // namespace selvage::faults
