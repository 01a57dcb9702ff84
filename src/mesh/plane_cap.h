#pragma once

#include "mesh/plane_section.h"

#include <Eigen/Core>

#include <array>
#include <functional>
#include <map>
#include <optional>
#include <set>
#include <utility>
#include <vector>

// The new face along which a plane cuts a solid in two; used within this room.
namespace selvage::mesh {

struct PlaneCap {
    std::vector<std::array<int, 3>> triangles;  // in places of the cut solid's points, looking the way of the plane's normal
    std::map<int, Eigen::Vector2d> flat;        // its points in the plane
    std::set<std::pair<int, int>> border;       // its outer edges, smaller place first

    bool ends_at(int point) const { return flat.count(point) == 1; }
    bool ends_along(int a, int b) const { return border.count(std::minmax(a, b)) == 1; }
    bool covers(const Eigen::Vector2d& place) const;  // or has it on its border, to `on_plane`
};

// The cap of a closed solid; nothing where its border crosses itself.
//   place_of   numbers the border's nodes among the cut solid's points
std::optional<PlaneCap> cap_along(const TriangleMesh& solid, const PlaneSection& section,
                                  const std::function<int(const PlaneSection::Node&)>& place_of);

}  // namespace selvage::mesh
