#pragma once

#include "veins/surface_parameters.h"

#include <cstddef>
#include <vector>

// How likely very many data of a surface are, by neighbours. Private to the surface's files.
namespace selvage::veins {

// log p(values) with each place of the spread order given only the nearest `neighbours` before it (Vecchia 1988; Guinness 2018).
// Exact where neighbours >= places - 1. Minus infinity where a matrix cannot be factored.
class NeighbourLikelihood {
public:
    NeighbourLikelihood(const SurfaceRows& rows, std::size_t neighbours);
    double operator()(const SurfaceGuess& guess) const;
    // The same with its derivatives by the scores.
    double operator()(Smoothness smoothness, const Scores& scores, double spacing, Scores& gradient) const;

private:
    std::vector<SurfaceRows> groups_;  // each place's own rows last; without sources, which the matrices hold
    std::vector<Eigen::Index> own_rows_;
};

}  // namespace selvage::veins
