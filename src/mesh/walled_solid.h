#pragma once

#include "mesh/outcome.h"
#include "mesh/planar_mesh.h"
#include "mesh/triangle_mesh.h"

#include <Eigen/Core>

#include <vector>

namespace selvage::mesh {

// The closed solid between two walls over a planar mesh, looking outward, labelled upper_wall, lower_wall and rim.
//   plan    the triangles of both walls
//   upper, lower   a point in space for each vertex of the plan; point i of the solid is upper[i], point n + i is lower[i]
//   up      unit vector from the lower to the upper wall
// A plan of either hand will do. Refuses walls that touch or cross, naming the vertex of the plan; how thin they may be is the
// caller's to say: below 1e-6 m later cuts may fail, 1e-3 m was sound in all tests.
Outcome<TriangleMesh> solid_between(const PlanarMesh& plan, const std::vector<Eigen::Vector3d>& upper,
                                    const std::vector<Eigen::Vector3d>& lower, const Eigen::Vector3d& up);

// The closed solid between two elevations over the region of some loops (see PlanarRegion), z up. Refuses what `triangulate`
// refuses, and a top that is not above the bottom.
Outcome<TriangleMesh> upright_prism(std::vector<std::vector<Eigen::Vector2d>> loops, double bottom, double top);

}  // namespace selvage::mesh
