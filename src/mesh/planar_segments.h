#pragma once

#include "mesh/constrained_triangulation.h"
#include "mesh/outcome.h"
#include "mesh/planar_mesh.h"

#include <Eigen/Core>

#include <vector>

// The loops, points and lines of a region as vertices and segments that cross none; used within this room.
namespace selvage::mesh {

struct PlanarSegments {
    std::vector<Eigen::Vector2d> points;  // all that the region uses; those of the loops first
    // Of each loop its vertices in order, and the input edge that starts there or runs on.
    std::vector<std::vector<BoundaryVertex>> loops;
    std::vector<PlanarEdge> lines;  // pieces that run within the region
    std::vector<int> required;      // place of each required point, -1 outside
};

Outcome<PlanarSegments> planar_segments(const PlanarRegion& region);

}  // namespace selvage::mesh
