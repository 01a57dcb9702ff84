#pragma once

#include "checks/holes.h"
#include "tables/records.h"

#include <map>
#include <string>
#include <vector>

namespace selvage::checks {

// Why a folded hole name has no collar that can be used.
enum class Gone { left_out, ambiguous };

struct UsableCollars {
    std::vector<tables::Collar> collars;
    std::map<std::string, Gone> gone;      // by folded name
    std::vector<tables::Collar> left_out;  // the rows that are not used
};

// The collars that can be used, each name once, parents spelled as their own rows spell them. Left out are differing rows of one
// name, holes without length, far from all others, and daughters without a parent, a kick-off, or either within reach; then
// their own daughters. Two rows of one name with different campaigns are two holes: "name (campaign)".
UsableCollars usable_collars(std::vector<tables::Collar> collars, Checking& checking);

// Doubts about single collars: elevations, targets, dates.
void check_collars(const std::vector<tables::Collar>& collars, Checking& checking);

// The middle of the collars, and how far from it a point can be and still belong to the project, m. Nothing to compare with where
// there are fewer than three collars: then everything belongs.
struct Neighbourhood {
    Eigen::Vector2d middle = Eigen::Vector2d::Zero();
    double reach = 0.0;
    bool known = false;

    bool holds(const Eigen::Vector3d& point) const { return !known || (point.head<2>() - middle).norm() <= reach; }
};
Neighbourhood neighbourhood_of(const std::vector<tables::Collar>& collars);
// "it lies 6312.0 km from the other collars ...", with the swap of east and north where that would mend it.
std::string far_away(const Eigen::Vector3d& point, const Neighbourhood& around, const base::MapFrame& frame);

}  // namespace selvage::checks
