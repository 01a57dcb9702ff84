#include "mesh/solid_check.h"

#include "mesh/edges.h"

#include <algorithm>

namespace selvage::mesh {

bool is_closed(const TriangleMesh& mesh) {
    const int count = static_cast<int>(mesh.points.size());
    const auto sound = [&](const std::array<int, 3>& t) {
        const auto [least, most] = std::minmax({t[0], t[1], t[2]});
        return least >= 0 && most < count && t[0] != t[1] && t[1] != t[2] && t[2] != t[0];
    };
    if (!std::all_of(mesh.triangles.begin(), mesh.triangles.end(), sound)) return false;
    if (!std::all_of(mesh.points.begin(), mesh.points.end(), [](const auto& point) { return point.allFinite(); })) return false;
    bool closed = true;
    const std::vector<TriangleSide> sides = sorted_sides(mesh.triangles);
    for_each_edge(sides, [&](auto first, auto last) { closed = closed && is_sound_edge(first, last); });
    return closed;
}

std::string words_of(const SolidCheck& check) {
    if (!check.closed) return "not closed";
    if (!check.free_of_crossings) return "closed, but crosses or touches itself";
    if (!check.outward) return "closed, but looks inward";
    if (!check.bounds_volume) return "closed, but its pieces overlap or look in different directions";
    return "sound";
}

}  // namespace selvage::mesh
