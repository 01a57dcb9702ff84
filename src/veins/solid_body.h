#pragma once

#include "mesh/outcome.h"
#include "mesh/triangle_mesh.h"
#include "veins/model.h"

#include <Eigen/Core>

#include <cstddef>
#include <vector>

// Private to the solids.
namespace selvage::veins {

// The body of one block before anything cuts it, today: the vein between its drawn walls over the block's extent, overstepping
// faults, ground and property. No triangles where the block holds none. Both contacts of every hole in it are vertices; edges are
// no longer than a quarter of the smallest bump of 5 cm or more there, nor than a third of the hole spacing.
mesh::Outcome<mesh::TriangleMesh> uncut_body(const Vein::Model& model, std::size_t block);

// What the drawn walls are made of can be no thinner than this, m.
constexpr double thinnest_body = 1e-3;

}  // namespace selvage::veins
