#pragma once

#include <Eigen/Core>

#include <array>
#include <vector>

// Triangles in space. Metres, relative to a local origin: on seven-figure map coordinates cutting loses digits.
namespace selvage::mesh {

struct TriangleMesh {
    std::vector<Eigen::Vector3d> points;
    std::vector<std::array<int, 3>> triangles;  // places in `points`, anticlockwise seen from the side that they look to
    // What each triangle belongs to (a wall, the rim, the tool that cut it), in the caller's numbers; as long as `triangles`, or
    // empty where nobody asks. Cutting carries them on.
    std::vector<int> labels;
};

// Labels of a solid between two walls.
constexpr int upper_wall = 1, lower_wall = -1, rim = 0;

// Triangles left out and the points that nothing uses any more too; the order of the rest is kept.
TriangleMesh selected(const TriangleMesh& mesh, const std::vector<bool>& keep);
// Both, one after the other. Labels are kept where both have them.
TriangleMesh joined(const TriangleMesh& first, const TriangleMesh& second);
// The pieces that hang together over edges, largest volume first (size without sign), then by their first triangle.
std::vector<TriangleMesh> pieces(const TriangleMesh& mesh);
// The same triangles looking the other way.
TriangleMesh reversed(TriangleMesh mesh);

// The same triangles in an order that depends on where they lie alone: points by x, y, z, those at one place once; each triangle
// from its first point on, in order of their points.
TriangleMesh in_fixed_order(const TriangleMesh& mesh);

// Label of each point: that of the first in `order` that one of its triangles has, else `otherwise`. With {upper_wall,
// lower_wall}, rim: a point on a wall belongs to the wall, also where a rim or a cut ends there.
std::vector<int> labels_of_points(const TriangleMesh& mesh, const std::vector<int>& order, int otherwise);

// m3, by the divergence theorem about the mesh's own middle: positive for a closed mesh that looks outward. Meaningless for an
// open one.
double volume(const TriangleMesh& mesh);
double area(const TriangleMesh& mesh);  // m2

struct Bounds {
    Eigen::Vector3d lower = Eigen::Vector3d::Zero(), upper = Eigen::Vector3d::Zero();
};
Bounds bounds(const TriangleMesh& mesh);  // of its points; zero where there are none

// The closed box with these corners, looking outward.
TriangleMesh box(const Eigen::Vector3d& lower, const Eigen::Vector3d& upper);

// Directed edges of triangles that no triangle has in the other direction, in order of the triangles: none for a closed mesh.
std::vector<std::array<int, 2>> border(const TriangleMesh& mesh);

}  // namespace selvage::mesh
