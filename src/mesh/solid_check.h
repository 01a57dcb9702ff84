#pragma once

#include "mesh/triangle_mesh.h"

#include <array>
#include <string>

namespace selvage::mesh {

// What a mesh must be to have a volume and to be cut.
struct SolidCheck {
    bool closed = false;                     // each edge has two triangles, which run along it in opposite directions
    bool free_of_crossings = false;          // no two triangles meet but in their common edge or point; none without area
    bool outward = false;                    // its outermost triangles look outward
    bool bounds_volume = false;              // the pieces do not overlap, and nested ones look in turns outward and inward
    std::array<int, 2> crossing = {-1, -1};  // two triangles that do meet; twice the same for one without area

    bool sound() const { return closed && outward && free_of_crossings && bounds_volume; }
};

// The later ones are not asked where `closed` or `free_of_crossings` fails, and read false.
SolidCheck check_solid(const TriangleMesh& mesh);

// Closed alone, its points finite, without triangles that use a point twice: quick, asked before every cut. A mesh without
// triangles is closed.
bool is_closed(const TriangleMesh& mesh);

// What is wrong, in words: "closed, but crosses itself"; "sound" where nothing is.
std::string words_of(const SolidCheck& check);

}  // namespace selvage::mesh
