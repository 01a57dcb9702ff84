#pragma once

#include "base/plane.h"
#include "mesh/outcome.h"
#include "mesh/triangle_mesh.h"

namespace selvage::mesh {

// A solid in two closed parts. Either may be empty (no triangles). Each triangle has the label of the one it comes from; those of
// the cut have the tool's.
struct CutSolid {
    TriangleMesh inside;  // within the tool; of a plane: on the side that its normal points to
    TriangleMesh outside;
};

// Cut by a plane. The new faces of both parts are `label`; points nearer than `on_plane` to the plane stay where they are and
// count as on it, so that a cut along a face or through points leaves no slivers.
// Where a part would touch itself, in a point that the plane runs through, say, the plane steps aside.
// Refuses what is not closed, and what crosses or touches itself where it is cut.
constexpr double step_aside = 1e-6;  // m
Outcome<CutSolid> cut_by_plane(const TriangleMesh& solid, const base::Plane& plane, int label);

// Cut by another closed solid that looks outward. The new faces keep the tool's labels (0 where it has none).
// Refuses what is not closed or looks inward, crossings near the cut (those elsewhere pass: ask check_solid of what is new), and
// parts that would touch themselves along it, as where the tool runs along a wall.
Outcome<CutSolid> cut_by_solid(const TriangleMesh& solid, const TriangleMesh& tool);

}  // namespace selvage::mesh
