#pragma once

#include "paths/path.h"

#include <Eigen/Core>

#include <string>

namespace selvage::studies {

constexpr double degree = 0.017453292519943295;  // radians

// A straight hole from a collar to a point and on, one tool, without a source of error.
paths::Path straight_hole(const std::string& name, std::size_t number, const Eigen::Vector3d& collar, const Eigen::Vector3d& to);

// How far its direction may be off by the drill's own way: `sd` radians each way, as sources.
void add_deviation(paths::Path& path, double sd);

// Its direction turned by so much each way, unit vector: to the left and down.
Eigen::Vector3d turned_direction(const paths::Path& path, double left, double down);

}  // namespace selvage::studies
