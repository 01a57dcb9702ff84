#pragma once

#include "mesh/planar_mesh.h"
#include "mesh/triangle_mesh.h"

#include <Eigen/Core>

#include <array>
#include <cstdint>
#include <vector>

// Solids that are known or invented, for the tests of meshes.
namespace selvage::made_up {

mesh::TriangleMesh tetrahedron();  // on (1,1,1) (1,-1,-1) (-1,1,-1) (-1,-1,1)
mesh::TriangleMesh octahedron();   // edge 1
mesh::TriangleMesh icosahedron();  // edge 1
mesh::TriangleMesh box(const Eigen::Vector3d& lower, const Eigen::Vector3d& upper);
inline mesh::TriangleMesh unit_cube() { return box({0, 0, 0}, {1, 1, 1}); }
// A rectangle `bottom` (width, depth) at z = 0 under a rectangle `top` at z = height, both about the z axis.
mesh::TriangleMesh prismatoid(const Eigen::Vector2d& bottom, const Eigen::Vector2d& top, double height);

// Two steps of 1 x 1 m, 1 m wide: the lower 2 m long, the upper on its far half.
mesh::TriangleMesh stairs();

// A dipping panel of 120 x 80 m, its thickness linear from 0.5 to 2.5 m across: 14,400 m3.
mesh::TriangleMesh panel(double longest_edge);

// An invented sheet between two wavy walls, some 400 x 300 m, in any attitude, 1 mm to some metres thick, with a wavy outline and
// sometimes a hole. Its middle lies near (0, 0, -100).
struct WalledSolid {
    mesh::PlanarMesh plan;
    mesh::TriangleMesh solid;
    Eigen::Vector3d up = Eigen::Vector3d::UnitZ();  // from wall to wall
};
WalledSolid walled_solid(std::uint64_t number, double longest_edge);

// An invented hilly ground about z = -100 +- 60 on a jittered grid of so many points a side, from -300 to 300 m.
std::vector<Eigen::Vector3d> ground_points(std::uint64_t number, int points_a_side);

// A unit vector in any direction.
Eigen::Vector3d random_direction(std::uint64_t number);

}  // namespace selvage::made_up
