#pragma once

#include "drawing/sheet.h"
#include "site/ground.h"

#include <Eigen/Core>

#include <functional>
#include <vector>

// The ground as sheets draw it. Where nothing at all is known of it, level through the project origin.
namespace selvage::sheets {

// Relative elevation of the ground under or over a place, m.
double ground_elevation(const site::Ground& ground, const Eigen::Vector3d& place);
// Distance of a point from the ground, positive over it, m.
double height_over_ground(const site::Ground& ground, const Eigen::Vector3d& point);

// A piece of the ground's line on a drawing: as measured, or as assumed.
struct GroundPiece {
    std::vector<drawing::Point> line;  // mm, from left to right
    bool given = false;
};
// From where the line stands at a distance across the paper (mm) and the place of the map under it. Assumed ground that is a
// plane all the way is one straight piece.
std::vector<GroundPiece> ground_pieces(const site::Ground& ground, double left, double right,
                                       const std::function<Eigen::Vector3d(double)>& place,
                                       const std::function<drawing::Point(double)>& on_paper);

// How far the collars and outcrops at most stand off the plane laid through them, which there is, m.
double farthest_from_plane(const site::Ground& ground, const tables::Records& records);

}  // namespace selvage::sheets
