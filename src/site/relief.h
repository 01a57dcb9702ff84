#pragma once

#include "gis/elevation_grid.h"
#include "site/triangulated_relief.h"

#include <Eigen/Core>

#include <optional>
#include <variant>

namespace selvage::site {

// The ground as somebody measured it: a grid, or points and breaklines joined by triangles. Relative to the project origin, m.
struct Relief {
    std::variant<gis::ElevationGrid, TriangulatedRelief> surface;
};

// Elevation at (east, north), m: bilinear on a grid, linear on a triangle. Nothing beyond the data and in their holes.
std::optional<double> elevation_at(const Relief& relief, const Eigen::Vector2d& place);
// How far apart its data stand, m: the side of a grid's cell, the usual side of a triangle.
double spacing_of(const Relief& relief);

enum class Coverage { data, hole, beyond };  // hole: within its grid, without data
Coverage coverage_at(const Relief& relief, const Eigen::Vector2d& place);

}  // namespace selvage::site
