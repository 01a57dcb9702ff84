#pragma once

#include "mesh/outcome.h"
#include "mesh/triangle_mesh.h"

#include <Eigen/Core>

#include <vector>

// Open surfaces that are a height over the plan, such as the ground, and the solid below them. x east, y north, z up.
namespace selvage::mesh {

// The surface through points (a grid's nodes, say) by Delaunay triangulation in plan, looking up. Points that repeat another
// exactly count once; refuses two heights at one place, fewer than three points, points all in one line.
Outcome<TriangleMesh> surface_through(const std::vector<Eigen::Vector3d>& points);

// The same, made to reach `beyond` m past the box on all sides where the points do not: there the ground is drawn on to a frame
// that is as high as the nearest of the points. One point is enough. For cutting, so that the surface overhangs what it cuts.
Outcome<TriangleMesh> overhanging_surface(const std::vector<Eigen::Vector3d>& points, const Bounds& box, double beyond);

// The closed solid below an open surface that looks up, down to a level base plate: the surface's labels (0 where it has
// none), `rim` on sides and base. Refuses a base that is not below all of it.
Outcome<TriangleMesh> solid_below(const TriangleMesh& surface, double base_elevation);

}  // namespace selvage::mesh
