#pragma once

#include "mesh/outcome.h"

#include <Eigen/Core>

#include <array>
#include <cstddef>
#include <functional>
#include <vector>

// A region of a plane cut into triangles. Metres on the plane.
namespace selvage::mesh {

// Places nearer than this are taken as one, or as lying on the line that they are near, m.
constexpr double planar_weld = 1e-6;

// The region lies within an odd number of loops: outer ones, holes, islands in holes, in any order and direction.
struct PlanarRegion {
    std::vector<std::vector<Eigen::Vector2d>> loops;  // closed; the first point is not repeated
    std::vector<Eigen::Vector2d> points;              // become vertices where they lie in the region
    std::vector<std::vector<Eigen::Vector2d>> lines;  // edges follow them where they run in the region; they may cross
    // Longest edge wanted at a place, m, at least planar_weld; asked at the middle of triangles. Empty: no bound, no vertices but
    // the given ones.
    std::function<double(const Eigen::Vector2d&)> longest_edge;
    std::size_t most_points = 500'000;  // more are refused
};

// A vertex of the region's boundary, and where the edge that starts there comes from.
struct BoundaryVertex {
    int point = 0;  // in PlanarMesh::points
    int edge = 0;   // the loop's edge, from its point `edge` to the next
};

struct PlanarMesh {
    std::vector<Eigen::Vector2d> points;
    std::vector<std::array<int, 3>> triangles;          // anticlockwise
    std::vector<std::vector<BoundaryVertex>> boundary;  // of each loop, in order with the region on the left; closed
    std::vector<int> required;                          // of each required point its vertex, -1 where it lies outside
};

// Refined constrained Delaunay triangulation. Every triangle's edges keep to the bound at its middle, and its angles are above
// 20 degrees but where the given lines are sharper or closer (Ruppert 1995; Shewchuk 2002, from memory).
// Refuses loops of no area, loops that cross or touch themselves or each other (naming the loop), and what is not finite.
Outcome<PlanarMesh> triangulate(const PlanarRegion& region);

}  // namespace selvage::mesh
