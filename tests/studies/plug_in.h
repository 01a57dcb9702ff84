#pragma once

#include "numerics/normal_mixture.h"
#include "veins/surface_rows.h"

#include <Eigen/Core>

#include <vector>

namespace selvage::studies {

// The yardstick: what most who krige would do. One set of parameters by maximum likelihood, the trend profiled out, taken as
// true from then on. nu 3/2; scores of range, slope sd, anisotropy (two) and core noise held to +-3.5, stated noise as stated;
// the best of 256 Sobol points, then a simplex search of 250 evaluations (Nelder & Mead 1965, from memory). Heights by universal
// kriging. `rows`: as the surface model lays out its data. One normal for each place.
std::vector<numerics::NormalMixture> plug_in_heights(veins::SurfaceRows rows, double spacing,
                                                     const std::vector<Eigen::Vector2d>& places);

}  // namespace selvage::studies
