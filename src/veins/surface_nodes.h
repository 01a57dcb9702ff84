#pragma once

#include "veins/surface_parameters.h"

#include <vector>

// The parameters of a surface as weighted nodes: nothing is plugged in. Private to the surface's files.
namespace selvage::veins {

struct WeighedGuess {
    SurfaceGuess guess;
    double weight = 0.0;
};

// Nodes of both smoothnesses with their posterior weights, the heaviest that hold 0.99 of the weight together, which then add
// to 1. From 40 places on a central composite design about each mode (Rue, Martino & Chopin 2009), else 64 points of the prior
// and 64 of a t distribution about each mode as one mixed proposal (Owen & Zhou 2000). Beyond `most_searched` rows the modes are
// sought on 100 spread places first and then by a likelihood of neighbours, and the ten heaviest nodes kept.
std::vector<WeighedGuess> surface_nodes(const SurfaceRows& rows, double spacing, Eigen::Index most_searched);

// The likeliest of 32 Sobol points of the prior: good enough for a first idea of the slopes.
SurfaceGuess first_guess(const SurfaceRows& rows, double spacing);

}  // namespace selvage::veins
