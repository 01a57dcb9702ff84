#pragma once

#include <Eigen/Core>

#include <cstddef>

namespace selvage::numerics {

constexpr int most_sobol_dimensions = 12;

// Evenly spread points of the unit cube, one a row, each coordinate held to 1e-4 .. 1 - 1e-4: the first `count` points of the
// Sobol sequence (Sobol 1967; direction numbers of Boost.Random) under a fixed digital shift, the same on every machine.
// 1 to 12 dimensions.
Eigen::MatrixXd sobol_points(std::size_t count, int dimensions);

}  // namespace selvage::numerics
