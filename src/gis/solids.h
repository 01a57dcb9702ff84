#pragma once

#include "gis/map_target.h"
#include "mesh/triangle_mesh.h"

#include <string>

// Solids from open mesh formats, read here: no library's door is needed for them.
namespace selvage::gis {

// True of a file that `read_solid` reads, by its ending: .ply, .off, .obj.
bool is_solid_file(const std::string& file);

// PLY (text, binary of either order), OFF or OBJ; faces of more than three corners are cut into triangles from their first
// corner. Coordinates are east, north, elevation of the map, in units of `metres_per_unit`. The solid may be open.
Read<mesh::TriangleMesh> read_solid(const std::string& file, double metres_per_unit);

}  // namespace selvage::gis
