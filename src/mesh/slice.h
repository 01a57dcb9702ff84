#pragma once

#include "base/plane.h"
#include "mesh/triangle_mesh.h"

#include <Eigen/Core>

#include <vector>

namespace selvage::mesh {

// A line in which a plane meets a mesh.
struct SliceLine {
    std::vector<Eigen::Vector3d> points;  // a closed one without its first point again
    bool closed = false;
};

// Points nearer to the plane than this count as on it, for slices and cuts alike, m.
constexpr double on_plane = 1e-9;

// Where each of the planes meets the mesh. Of a solid the section's border: closed rings with the solid on their left, seen
// against the plane's normal; where the plane runs along a face, the face's border; touching in a point or an edge alone gives
// nothing. Of an open surface lines with its lower side (that it does not look to) on their left.
// The same for every plane of a set as alone. A ring starts at its smallest point (x, then y, then z), lines stand in the order
// of their first points: the same bytes whatever the number of threads.
std::vector<std::vector<SliceLine>> slices(const TriangleMesh& mesh, const std::vector<base::Plane>& planes);
std::vector<SliceLine> slice(const TriangleMesh& mesh, const base::Plane& plane);

// Area within rings on one plane, holes taken off, m2.
double area_within(const std::vector<SliceLine>& rings, const base::Plane& plane);
double length_of(const SliceLine& line);  // m, with the closing piece of a ring

}  // namespace selvage::mesh
