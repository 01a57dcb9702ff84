#pragma once

#include "mesh/triangle_mesh.h"

#include <string>
#include <vector>

namespace selvage::mesh {

// A figure for each point of a mesh.
struct PointColumn {
    std::string name;  // letters, figures, underline
    std::vector<double> values;
};

// Bytes of a PLY file, binary little-endian: comments, then vertices with x, y, z and the columns in their order, all doubles,
// then faces (list of three 32-bit places). Format: Turk 1994, "The PLY polygon file format", from memory.
// Every column is as long as the mesh's points.
std::string ply_bytes(const TriangleMesh& mesh, const std::vector<PointColumn>& columns,
                      const std::vector<std::string>& comments);

}  // namespace selvage::mesh
