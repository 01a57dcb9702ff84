#pragma once

#include "mesh/triangle_mesh.h"

#include <array>
#include <vector>

// Which triangles meet in which edge; used within this room.
namespace selvage::mesh {

// One side of one triangle.
struct TriangleSide {
    int low = 0, high = 0;  // its points, smaller first
    int triangle = 0;
    bool forward = true;  // the triangle runs from low to high
};

// The sides of all triangles, those of one edge beside each other: by low, high, then triangle.
std::vector<TriangleSide> sorted_sides(const std::vector<std::array<int, 3>>& triangles);

// Calls use(first, last) with the range of sides of each edge in turn.
template <typename Use>
void for_each_edge(const std::vector<TriangleSide>& sides, Use use) {
    for (auto first = sides.begin(); first != sides.end();) {
        auto last = first + 1;
        while (last != sides.end() && last->low == first->low && last->high == first->high) ++last;
        use(first, last);
        first = last;
    }
}

// A directed edge of a triangle that no triangle has in the other direction.
struct BorderEdge {
    int triangle = 0, from = 0, to = 0;
};
std::vector<BorderEdge> border_edges(const std::vector<std::array<int, 3>>& triangles);  // by triangle, from, to

// Corners of triangles round a point that hang together over edges make one fan: a point in which a mesh touches itself has
// several. Gives each corner (3 * triangle + place) the first corner of its fan.
std::vector<int> fans(const std::vector<std::array<int, 3>>& triangles);

// Triangles that hang together over edges make one piece. Gives each triangle the first of its piece.
std::vector<int> pieces_of(const std::vector<std::array<int, 3>>& triangles);

// Two triangles that run along an edge in opposite directions.
template <typename Iterator>
bool is_sound_edge(Iterator first, Iterator last) {
    return last - first == 2 && first->forward != (first + 1)->forward;
}

}  // namespace selvage::mesh
