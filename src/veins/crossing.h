#pragma once

#include "paths/path.h"
#include "veins/model.h"

#include <optional>
#include <vector>

namespace selvage::veins {

// How far past its end a path is followed in search of a vein, m.
constexpr double longest_prolongation = 2000.0;

// A path and its prolongation, parted by the faults that cut the vein.
std::vector<faults::Blocks::Stretch> stretches_of(const Vein::Model& model, const paths::Path& path);

// Where a path first comes to the mean surface within a stretch, roughly: what tells whether it is worth a curve. Off the lattice
// the base plane stands for the surface. Nothing where it stays on its side.
std::optional<double> rough_crossing(const Vein::Model& model, const paths::Path& path, const faults::Blocks::Stretch& stretch);

// The curve of probability of the first crossing within a stretch. Nothing where its chance is under 1 in 20: the path runs along
// the vein, away from it, starts beyond it, or a fault ends the block too soon. Says nothing of the extent.
// `ends`: how far out it is followed: to 6 sd for a forecast, to 3 sd where only its 1 % to 99 % points are asked for.
enum class CurveEnds { six_sd, three_sd };
std::optional<Crossing> crossing_curve(const Vein::Model& model, const paths::Path& path, const faults::Blocks::Stretch& stretch,
                                       CurveEnds ends = CurveEnds::six_sd);

}  // namespace selvage::veins
