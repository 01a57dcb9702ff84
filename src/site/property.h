#pragma once

#include <Eigen/Core>

#include <optional>
#include <vector>

namespace selvage::site {

using Ring = std::vector<Eigen::Vector2d>;  // closed; the first point is not repeated

// Where one may explore: areas on the map, each an outer ring with its holes. Relative to the project origin, m.
class Property {
public:
    using Area = std::vector<Ring>;
    explicit Property(std::vector<Area> areas);
    const std::vector<Area>& areas() const { return areas_; }

    // Level distance to the nearest limit, m, positive within the property: no more than the distance on a vein. Where areas
    // adjoin, their common side counts as a limit, on which one is still within.
    double inside_by(const Eigen::Vector2d& place) const;
    bool holds(const Eigen::Vector2d& place) const;  // gaps of half a metre between areas are their surveys', not a limit
    // The first place of a level line between two places that lies outside, as a share of it; nothing where all lies within.
    std::optional<double> first_outside(const Eigen::Vector2d& from, const Eigen::Vector2d& to) const;

private:
    // Some sides of a ring that follow one another, and the box round them: most need not be looked at.
    struct Stretch {
        std::vector<Eigen::Vector2d> corners;  // ends of sides, in order
        Eigen::Vector2d low, high;
    };
    double inside_area(const std::vector<Stretch>& stretches, const Eigen::Vector2d& place) const;

    std::vector<Area> areas_;
    std::vector<std::vector<Stretch>> stretches_;  // of each area
};

// Distance to the nearest side of some rings, m, positive within them (even-odd rule).
double inside_of_rings(const std::vector<Ring>& rings, const Eigen::Vector2d& place);
// Where two sides of one ring cross that do not follow one another.
std::optional<Eigen::Vector2d> self_crossing(const Ring& ring);

}  // namespace selvage::site
