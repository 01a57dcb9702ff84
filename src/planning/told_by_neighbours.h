#pragma once

#include "planning/on_the_way.h"

#include <Eigen/Core>

#include <vector>

namespace selvage::planning {

// A place of a hole: m down it, and where that is, relative m.
struct PlaceOnHole {
    double depth = 0.0;
    Eigen::Vector3d point = Eigen::Vector3d::Zero();
};

// Places a metre apart or less between two depths of a path, both of them with it.
std::vector<PlaceOnHole> places_of(const paths::Path& path, double from, double to);

// What neighbouring holes met within `told_within` of a hole's places, those of one kind together that would come within 15 m of
// depth. From the shallowest to the deepest of the depths across from them, wider at either end by the distance of the nearest,
// as though it dipped at up to 45 degrees to the hole (common practice, no source), and no further than the places reach.
std::vector<Danger> told_by_neighbours(const paths::Path& path, const std::vector<PlaceOnHole>& places,
                                       const Surroundings& surroundings);

}  // namespace selvage::planning
