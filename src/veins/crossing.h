#pragma once

#include "paths/path.h"
#include "veins/model.h"

#include <optional>

namespace selvage::veins {

// How far past its end a path is followed in search of a vein, m.
constexpr double longest_prolongation = 2000.0;

// Where a path first comes to the mean surface, roughly: what tells whether it is worth a curve. Off the lattice the base plane
// stands for the surface. Nothing where it stays on its side.
std::optional<double> rough_crossing(const Vein::Model& model, const paths::Path& path);

// The curve of probability of the first crossing. Nothing where its chance is under 1 in 20: the path runs along the vein, away
// from it, or starts beyond it. Says nothing of the extent.
std::optional<Crossing> crossing_curve(const Vein::Model& model, const paths::Path& path);

}  // namespace selvage::veins
