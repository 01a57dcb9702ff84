#pragma once

#include <Eigen/Core>

#include <array>
#include <cstddef>
#include <functional>
#include <optional>
#include <vector>

// The door to the library's triangulations of a plane; used within this room. Points differ from each other; edges cross none.
namespace selvage::mesh {

using PlanarEdge = std::array<int, 2>;  // places in the points

// Delaunay triangulation of points, anticlockwise triangles; none where all lie in one line.
std::vector<std::array<int, 3>> delaunay(const std::vector<Eigen::Vector2d>& points);

// What lies within an odd number of the loops that the edges make up, cut into triangles without further points. Nothing where
// edges cross or run through a point.
std::optional<std::vector<std::array<int, 3>>> triangles_within(const std::vector<Eigen::Vector2d>& points,
                                                                const std::vector<PlanarEdge>& loop_edges);

struct Refinement {
    std::vector<PlanarEdge> loop_edges, line_edges;
    std::function<double(const Eigen::Vector2d&)> longest_edge;  // m, at the middle of a triangle
    std::size_t most_points = 0;
};
struct Refined {
    std::vector<Eigen::Vector2d> points;  // the given ones first
    std::vector<std::array<int, 3>> triangles;
    bool too_many = false, crossing = false;  // then nothing else
};
Refined refined_within(const std::vector<Eigen::Vector2d>& points, const Refinement& wanted);

}  // namespace selvage::mesh
