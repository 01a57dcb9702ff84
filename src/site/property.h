#pragma once

#include <Eigen/Core>

#include <memory>
#include <optional>
#include <vector>

namespace selvage::site {

using Ring = std::vector<Eigen::Vector2d>;  // closed; the first point is not repeated

// Where one may explore: areas on the map, each an outer ring with its holes. Relative to the project origin, m.
struct Property {
    std::vector<std::vector<Ring>> areas;

    // Distance to the nearest limit, m, positive within the property: level, so no more than the distance on a vein.
    double inside_by(const Eigen::Vector2d& place) const;
    // True where the whole level line between two places lies within.
    bool holds(const Eigen::Vector2d& from, const Eigen::Vector2d& to) const;
};

// Distance to the nearest side of some rings (even-odd), m, positive within them.
double inside_of_rings(const std::vector<Ring>& rings, const Eigen::Vector2d& place);
// Where two sides of one ring cross that do not follow one another.
std::optional<Eigen::Vector2d> self_crossing(const Ring& ring);

}  // namespace selvage::site
