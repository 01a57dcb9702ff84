#pragma once

#include "drawing/contour.h"

#include <Eigen/Core>

#include <vector>

// How densely poles lie on the lower hemisphere, and where no pole would have been met, as grids over an equal-area net.
namespace selvage::sheets {

// Standard deviations by which the poles lie more densely at a line than the same number spread evenly: each pole p counts at an
// axis x with exp(k (|p.x| - 1)), k = 2 (1 + n/9), n the number of poles, so that an even spread is three standard deviations
// over none (Kamb 1959, J. Geophys. Res. 64, 1891; with the exponential in place of a circle, Vollmer 1995, Computers &
// Geosciences 21, 31; from memory, the moments derived here: mean n/k, variance n (k/2 - 1)/k^2). Weights are made to add to n.
// The grid: of the net of radius 1 about (0, 0), a little beyond its rim; `nodes` each way.
double density_at(const Eigen::Vector3d& line, const std::vector<Eigen::Vector3d>& poles, const std::vector<double>& weights);
drawing::ValueGrid density_grid(const std::vector<Eigen::Vector3d>& poles, const std::vector<double>& weights, std::size_t nodes);

// Standard deviations at the mean of a set under which it is taken for chance: about one even spread in twenty holds a set of
// 30 degrees as dense anywhere (found by drawing even spreads of 4 to 80 poles, as the test beside this does).
constexpr double dense_by_chance = 3.5;

// The sine of the angle at which the most favourable of some holes would meet a plane with this pole.
drawing::ValueGrid meeting_grid(const std::vector<Eigen::Vector3d>& hole_directions, std::size_t nodes);

// The line that an equal-area net shows at a place, pointing down within the rim (and, beyond it, as its other end comes in).
Eigen::Vector3d line_at(double x, double y);

}  // namespace selvage::sheets
